import { utf8Bytes } from "../platform";
import type { PlannedColumn } from "../table-plan";

/** Bytes that the columns of units and of qualities beside these hold in a plain row, by their places. */
export const usualWords = (numbers: readonly PlannedColumn[]): ReadonlyMap<number, Uint8Array> =>
  new Map(
    numbers.flatMap(({ unitColumn, unitsCell, quality }) => [
      ...(unitColumn === null ? [] : [[unitColumn, utf8Bytes(unitsCell ?? "")] as const]),
      ...(quality === undefined ? [] : [[quality.index, utf8Bytes(quality.usual)] as const]),
    ]),
  );
