import type { ColumnText } from "./column-reading";

/** How questions call a column: its heading; "Heading (2)" where an earlier column has the same; "Column 3" where it has none. */
export function channelNames(columns: readonly ColumnText[]): readonly string[] {
  const seen = new Map<string, number>();
  return columns.map(({ heading, index }) => {
    if (heading === "") return `Column ${index + 1}`;
    const count = (seen.get(heading) ?? 0) + 1;
    seen.set(heading, count);
    return count === 1 ? heading : `${heading} (${count})`;
  });
}
