/** Whether the platform knows the place name ("Europe/Lisbon"). */
export function isPlaceZone(zone: string): boolean {
  const known = seen.get(zone);
  if (known !== undefined) return known;
  const found = /^[A-Za-z]+(?:[/_+-][A-Za-z0-9_+-]+)+$/.test(zone) && isKnown(zone);
  if (seen.size < 1000) seen.set(zone, found);
  return found;
}

/** Cells name few zones, and asking the platform takes some 50 us. */
const seen = new Map<string, boolean>();

function isKnown(zone: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}

/** The place name that a text begins with, undefined where it begins with none. */
export function placeZoneIn(text: string): string | undefined {
  const name = /^[A-Za-z]+(?:\/[A-Za-z\d_+-]+)+/.exec(text)?.[0];
  return name !== undefined && isPlaceZone(name) ? name : undefined;
}

const AT_END = /[\s[(]([A-Za-z]+(?:\/[A-Za-z\d_+-]+)+)[\])]?$/;

/** The place name that every stamp of a column ends in ("2024-05-01 10:00:00 Europe/Berlin"); null where they end in none, "varied" where in several. */
export function placeZoneOf(cells: readonly string[]): string | "varied" | null {
  let common: string | null = null;
  for (const cell of cells) {
    const name = AT_END.exec(cell)?.[1];
    if (cell === "" || name === undefined || !isPlaceZone(name)) continue;
    if (common !== null && common !== name) return "varied";
    common = name;
  }
  return common;
}
