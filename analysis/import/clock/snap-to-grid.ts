const GRIDS = [3600, 1800, 1200, 900, 600, 300, 120, 60, 30, 20, 15, 10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.001];

/**
 * Day numbers and decimal hours are rounded by the file: 45413.42361 days are known to 0.43 s only. Where every cell of the sample lies within that
 * rounding of a multiple of a usual grid, and the grid is wider than the rounding, the instants were on the grid. Null where nothing is rounded away.
 */
export function findSnap(
  sample: readonly string[],
  decimal: "." | ",",
  unitSeconds: number,
  origin: number,
): { grid: number; within: number } | null {
  let places = 0;
  for (const cell of sample) {
    const mark = cell.indexOf(decimal);
    if (/e/i.test(cell)) return null;
    if (mark >= 0) places = Math.max(places, cell.length - mark - 1);
  }
  const quantum = unitSeconds * 10 ** -places;
  // doubles near 45,000 days hold about 1 microsecond
  const within = Math.max(quantum * 0.501, unitSeconds * 1e-11);
  if (unitSeconds <= 1 || places === 0) return null;
  const values = sample.flatMap((cell) => {
    const value = Number(cell.replace(",", "."));
    return cell === "" || Number.isNaN(value) ? [] : [value * unitSeconds + origin];
  });
  if (values.length < 3) return null;
  const grid = GRIDS.find((g) => g > quantum * 1.1 && values.every((v) => Math.abs(v - Math.round(v / g) * g) <= within));
  return grid === undefined ? null : { grid, within };
}

/**
 * Undoes the rounding of the whole file in place, on the widest grid that nearly all rows fit; nothing is moved where none fits.
 * @param times s, shape [n]
 */
export function snapToGrid(times: Float64Array, snap: { readonly grid: number; readonly within: number }): void {
  for (const grid of GRIDS.filter((g) => g <= snap.grid && g > snap.within * 2.2)) {
    let off = 0;
    for (const t of times) if (Math.abs(t - Math.round(t / grid) * grid) > snap.within) off++;
    if (off > 1e-3 * times.length) continue;
    for (let i = 0; i < times.length; i++) {
      const near = Math.round(times[i] / grid) * grid;
      if (Math.abs(times[i] - near) <= snap.within) times[i] = near;
    }
    return;
  }
}
