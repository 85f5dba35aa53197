import type { QuestionInWords } from "../wording/import-question";

/** What only a person can know. A question never stops the reading: the likeliest answer is assumed, said, and can be changed. */
export type ImportQuestion = {
  /** "date-order", "time-zone", "start-time", "interval", "decimal", "clock", or with a channel: "unit:P1", "range:Ch1", "reference:P1", "k-factor:Flow", "column-role:X", "sentinel:P1". */
  readonly id: string;
  readonly asks: QuestionInWords;
  readonly options: readonly string[];
  readonly assumed: string;
};
