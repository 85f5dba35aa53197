import type { ImportQuestion } from "../../../shared/record/import-question";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { clockZone } from "./clock-zone";
import { type ColumnProfile, plainNumber } from "./column-profile";
import { possibleOrders } from "./date-order";
import { toldSeconds } from "./preamble-clock";
import { startOf } from "./start-of-log";

export const INTERVAL_QUESTION: ImportQuestion = {
  id: "interval",
  asks: { kind: "interval" },
  options: ["1 s", "2 s", "5 s", "10 s", "30 s", "1 min"],
  assumed: "1 s",
};

const INDEX =
  /^(no|nr|num|number|numero|nummer|#|n|n°|nº|index|idx|record|rec|entry|sample|samples|point|pt|scan|row|line|id|lfd|lfd nr|zeile|satz|messung|mesure|ligne|linea|fila|riga|rij|regel|count|seq|sequence|item|registro|muestra|amostra|campione|meting|punkt|enregistrement|sample no|sample number|record no|record number|point no|scan no|reading|readings|reading no|ablesung|lectura|lettura|leitura|)$/;

/** A column that only counts rows: whole numbers, each one more than the last. */
export function isIndexColumn(profile: ColumnProfile): boolean {
  if (profile.kind !== "number" || !INDEX.test(profile.words.replace(/[°º]/g, ""))) return false;
  const { numbers } = profile;
  let [ones, steps] = [0, 0];
  for (let i = 1; i < numbers.length; i++) {
    steps++;
    if (Math.abs(numbers[i] - numbers[i - 1]) === 1) ones++;
  }
  return steps > 0 && ones / steps > 0.8;
}

/** A clock of start and interval without a time column; null where the file and the person name neither, unless an interval may be assumed and asked. */
export function countedClock(hints: ClockHints, assumed = false): ClockReading | null {
  const start = startOf(hints);
  const interval = hints.answers.interval ?? hints.told.interval ?? intervalBetween(hints, start.seconds);
  const named = start.seconds !== null && (hints.answers.start !== null || hints.told.stamps.some((s) => s.role === "start"));
  if (interval === null && !named && !assumed) return null;
  return {
    ...countedBase(hints, interval ?? 1, start, interval === null),
    columns: [],
    kind: "counted",
    parse: () => Number.NaN,
    patterns: null,
    unitSeconds: 1,
  };
}

/** The same with a column that numbers the rows: numbers left out are rows left out. */
export function indexClock(profile: ColumnProfile, hints: ClockHints): ClockReading {
  const interval = hints.answers.interval ?? hints.told.interval;
  const { decimal, thousands } = hints.context;
  const first = profile.numbers.find((v) => !Number.isNaN(v)) ?? 0;
  const base = countedBase(hints, interval ?? 1, startOf(hints));
  const from = first === 0 ? 0 : 1;
  return {
    ...base,
    columns: [profile.column.index],
    kind: "elapsed",
    parse: (cells) => (plainNumber(cells[0], decimal, thousands) - from) * (interval ?? 1),
    patterns: null,
    unitSeconds: interval ?? 1,
  };
}

const SAMPLES =
  /(?:samples|readings|records|values|rows|points|werte|messungen|mesures|muestras|lecturas|amostras|campioni|metingen)\s*["']?\s*[:=;,\t]\s*["']?(\d{1,9})\b/i;

/** The interval of rows that fill the time from start to end evenly, s; null where the file does not name all three. */
function intervalBetween({ told, context }: ClockHints, start: number | null): number | null {
  const end = told.stamps.find(({ role, hasDate, hasTime }) => role === "end" && hasDate && hasTime);
  const samples = context.preamble.map((line) => Number(SAMPLES.exec(line)?.[1] ?? Number.NaN)).find((n) => n > 1);
  const orders = end === undefined ? [] : possibleOrders([end.text]);
  if (start === null || end === undefined || samples === undefined || orders.length !== 1) return null;
  const interval = (toldSeconds(end, orders[0]).seconds - start) / (samples - 1);
  return interval > 0 && Math.abs(interval - Math.round(interval)) < 1e-6 ? interval : null;
}

function countedBase(
  hints: ClockHints,
  interval: number,
  start: ReturnType<typeof startOf>,
  asked = hints.answers.interval === null && hints.told.interval === null,
) {
  return {
    description: [{ kind: "counted", interval, hasStart: start.seconds !== null, isAssumed: asked }] as const,
    start: start.seconds,
    interval,
    zone: clockZone(hints, [], start.zone),
    rollsOverMidnight: false,
    orders: start.orders,
    snap: null,
    certainty: asked ? 0.3 : 0.9,
    questions: [...start.questions, ...(asked ? [INTERVAL_QUESTION] : [])],
    notes: [],
  };
}
