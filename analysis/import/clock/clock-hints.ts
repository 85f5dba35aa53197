import { ImportError } from "../../../shared/problems/import-problem";
import type { ColumnText, FileContext } from "../columns/column-reading";
import type { ImportChoices } from "../import-log";
import { DATE_ORDERS } from "./date-order";
import { readInterval } from "./interval-text";
import type { PreambleClock } from "./preamble-clock";
import type { DateOrder } from "./stamp";
import { readZone } from "./zone-text";

/** What stands beside the cells: preamble and the person's answers. */
export type ClockHints = {
  readonly context: FileContext;
  readonly told: PreambleClock;
  readonly columns: readonly ColumnText[];
  /** Headings and units of all columns. */
  readonly headings: readonly string[];
  readonly answers: ClockAnswers;
};

/** Whether headings or preamble speak the units of the United States. */
export const speaksAmerican = ({ context, headings }: Pick<ClockHints, "context" | "headings">): boolean =>
  /(?:\b|_)(?:psi[ag]?|gpm|hp|fahrenheit)\b|°f\b/i.test([...context.preamble, ...headings].join(" "));

/** The person's answers to questions of the clock, understood. */
export type ClockAnswers = {
  readonly order: DateOrder | null;
  readonly zone: string | null;
  /** Zone of the site facts: used where neither the file nor an answer names one. */
  readonly siteZone: string | null;
  readonly start: string | null;
  readonly interval: number | null;
  readonly clock: string | null;
};

/** @throws ImportError unknown-answer where an answer cannot be understood */
export function readClockAnswers(choices: ImportChoices): ClockAnswers {
  const { answers } = choices;
  const order = answers["date-order"] ?? null;
  if (order !== null && !isOrder(order)) throw refused("date-order", order, DATE_ORDERS);
  const interval = answers.interval === undefined ? null : readInterval(answers.interval, 1);
  if (answers.interval !== undefined && interval === null) throw refused("interval", answers.interval, ["1 s", "10 s", "1 min"]);
  return {
    order,
    zone: zoneAnswer("time-zone", answers["time-zone"] ?? null),
    siteZone: zoneAnswer("time-zone", choices.zone),
    start: answers["start-time"] ?? null,
    interval,
    clock: answers.clock ?? null,
  };
}

const isOrder = (text: string): text is DateOrder => (DATE_ORDERS as readonly string[]).includes(text);

function zoneAnswer(question: string, text: string | null): string | null {
  if (text === null) return null;
  const zone = readZone(text);
  if (zone === null) throw refused(question, text, ["UTC", "+02:00", "Europe/Lisbon"]);
  return zone;
}

export const refused = (question: string, answer: string, options: readonly string[]) =>
  new ImportError({ id: "unknown-answer", question, answer, options });
