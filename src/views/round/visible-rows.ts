/** Rows of a long list that are in sight, with some above and below, so that 5,000 sites scroll as one does. */
export function visibleRows(
  count: number,
  rowHeight: number,
  scrolled: number,
  height: number,
): { readonly from: number; readonly to: number } {
  const SPARE = 8;
  const from = Math.max(0, Math.floor(scrolled / rowHeight) - SPARE);
  const to = Math.min(count, Math.ceil((scrolled + height) / rowHeight) + SPARE);
  return { from: Math.min(from, count), to: Math.max(from, to) };
}
