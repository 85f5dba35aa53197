// What came of the changes, in words and figures.

/** Wilson's interval of a share, 95 %. Brown, Cai and DasGupta 2001, Statistical Science 16(2), equation 4. */
export function shareInterval(hit, of) {
  const z = 1.959964;
  const share = hit / of;
  const middle = (share + z ** 2 / (2 * of)) / (1 + z ** 2 / of);
  const half = (z / (1 + z ** 2 / of)) * Math.sqrt((share * (1 - share)) / of + z ** 2 / (4 * of ** 2));
  return [middle - half, middle + half];
}

const percent = (share) => `${(100 * share).toFixed(1)} %`;
const oneLine = (text) => (text ?? "").replace(/\s+/g, " ").slice(0, 90);

/** By file: how many were noticed, and those that were not. */
export function sayFigures(tried, all) {
  for (const path of [...new Set(tried.map((one) => one.path))].sort()) {
    const own = tried.filter((one) => one.path === path);
    const left = own.filter(({ outcome }) => outcome !== "killed").sort((a, b) => a.line - b.line);
    console.log(`${path}: ${own.length - left.length} of ${own.length} killed`);
    for (const { place, kind, stood, replacement, outcome } of left)
      console.log(`  ${place} ${outcome === "unreached" ? "no test comes here" : kind}: ${oneLine(stood)}  ->  ${oneLine(replacement)}`);
  }
  const killed = tried.filter(({ outcome }) => outcome === "killed").length;
  console.log(`${killed} of ${tried.length} killed (${percent(killed / Math.max(1, tried.length))})`);
  if (tried.length === all || tried.length === 0) return;
  const [low, high] = shareInterval(killed, tried.length);
  console.log(`${tried.length} of ${all} tried, drawn by chance: with 95 % confidence between ${percent(low)} and ${percent(high)} of all`);
}
