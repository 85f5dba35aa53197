const HELD_BINS = 64; // over the whole range

/**
 * Pressure that a drive holds: the fullest of 64 bins between where starts lie and the usual top, with its neighbours. Not a median: overshoots of a small
 * tank would draw it up, a slow fall at rest down.
 */
export function heldLevel(kept: Float64Array, from: number, to: number, noise: number): number {
  const width = Math.max((to - from) / HELD_BINS, noise / 2, 1);
  const counts = new Float64Array(Math.max(1, Math.ceil((to - from) / width)));
  for (let i = 0; i < kept.length; i++) {
    const bin = Math.floor((kept[i] - from) / width);
    if (bin >= 0 && bin < counts.length) counts[bin]++;
  }
  let best = 0;
  let most = -1;
  for (let b = 0; b < counts.length; b++) {
    const near = counts[b] + (counts[b - 1] ?? 0) + (counts[b + 1] ?? 0);
    if (near > most) {
      most = near;
      best = b;
    }
  }
  return from + (best + 0.5) * width;
}
