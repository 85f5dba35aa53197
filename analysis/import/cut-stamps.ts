import { looksLikeTime } from "./cell-kind";
import type { TextRow } from "./find-format";
import { type CellFormat, isHalfStamp } from "./row-cells";

/**
 * A comma both between cells and inside the stamp ("Nov 17, 2023 06:40:00,2.10"): most rows hold two neighbouring cells that are a stamp only together.
 * @returns the format that joins them, null where the rows are not of this kind
 */
export function findCutStamps(rows: readonly TextRow[], format: CellFormat): CellFormat | null {
  if (format.separator.kind !== "character" || format.separator.character !== ",") return null;
  const body = rows.slice(Math.floor(rows.length / 2)).filter(({ text }) => text.trim() !== "");
  const { separator } = format;
  const count = body[0]?.cells.length ?? 0;
  for (let at = 0; at + 1 < Math.min(count, 4); at++) {
    const cut = body.filter(
      ({ cells }) => isHalfStamp(cells[at] ?? "", cells[at + 1] ?? "") && looksLikeTime(`${cells[at]}, ${cells[at + 1]}`),
    );
    if (cut.length > 0 && cut.length >= 0.8 * body.length) return { ...format, separator: { ...separator, stampAt: at } };
  }
  return null;
}
