import type { Span } from "../../../shared/findings/span";
import type { Shown } from "../../../shared/units/format-quantity";
import type { CloserLook, LookNumbers } from "../../../shared/wording/closer-look";
import type { ChartLine } from "../chart-spec";
import type { Point } from "../trace-series";

/** Which picture, and which place of the finding it is about; null lets the picture choose. */
export type LookRequest = { readonly look: CloserLook; readonly place: Span | null };

/** "inversePressure": 1/Pa, shown per unit of absolute pressure. */
export type LookShown = Shown | "inversePressure";
/** Values SI; `low` and `high` null leave the range to the data. */
export type LookAxis = {
  readonly title: string;
  readonly shown: LookShown;
  readonly low: number | null;
  readonly high: number | null;
  /** Where the ticks stand, SI, when round numbers would not do; the axis is then logarithmic. */
  readonly ticks?: readonly number[];
  /** Ticks at powers of ten of the unit shown, over at most so many of them below the greatest value; the axis is then logarithmic. */
  readonly decades?: number;
  /** Seconds after the record's first instant: written by the clock. */
  readonly isInstant?: boolean;
};
export type LookMark =
  | { readonly kind: "line"; readonly axis: "x" | "y"; readonly at: number; readonly name: string; readonly dash: readonly number[] }
  | { readonly kind: "area"; readonly axis: "x" | "y"; readonly from: number; readonly to: number; readonly name: string };

/** A picture in SI, ready to be shown in anybody's units. */
export type Look =
  | { readonly look: CloserLook; readonly state: "nothing-to-show" }
  | {
      readonly look: CloserLook;
      readonly state: "shown";
      readonly x: LookAxis;
      readonly y: LookAxis;
      readonly lines: readonly ChartLine[];
      readonly shaded: readonly (readonly [number, number])[];
      readonly marks: readonly LookMark[];
      /** Rising, shape [n]. */
      readonly xs: Float64Array;
      /** One list of n a line. */
      readonly ys: readonly (readonly Point[])[];
      readonly numbers: LookNumbers;
    };

export const nothing = (look: CloserLook): Look => ({ look, state: "nothing-to-show" });
