import type { UnitSystem } from "./unit-proposal";

/** What the other columns and the lines above the table say. */
export type FileFacts = {
  readonly preamble: readonly string[];
  /** Lines above and below the rows. */
  readonly around: readonly string[];
  readonly system: UnitSystem;
  readonly hasPressure: boolean;
  /** Columns of which it is known what they hold. */
  readonly known: number;
  /** Columns of numbers. */
  readonly numbers: number;
  /** Columns in a unit of length whose headings do not say of what. */
  readonly nameless: number;
  /** Columns that could be raw signals. */
  readonly rawCount: number;
};
