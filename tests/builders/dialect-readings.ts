/** Invented logs, one difficulty each, with their truth: the same readings of a pump room laid out as loggers, spreadsheets and people lay them out. */
export type DialectSample = {
  readonly file: string;
  readonly bytes: Uint8Array;
  /** One sentence: what is difficult about it. */
  readonly about: string;
  readonly headings: readonly string[];
  /** SI, a list a heading; null where missing. */
  readonly values: readonly (readonly (number | null)[])[];
  readonly rows: number;
  /** ISO, or seconds where the clock only counts. */
  readonly firstInstant: string | number;
  readonly firstLine: number;
  readonly rejects: readonly number[];
  readonly questions: readonly string[];
};

export const ROWS = 24;
export const START = Date.UTC(2024, 2, 14, 8, 15, 0);
export const BAR = 1e5;
export const LITRE_PER_MINUTE = 1e-3 / 60;
export const rows = Array.from({ length: ROWS }, (_, i) => i);
/** Swings over the hours by whole hundredths, so that every layout writes it without rounding. */
export const bar = rows.map((i) => (380 + ((i * 37) % 61)) / 100);
export const flow = rows.map((i) => (180 + ((i * 53) % 79)) / 10);
export const at = (i: number) => new Date(START + i * 10_000).toISOString();
export const iso = (i: number) => at(i).slice(0, 19).replace("T", " ");
export const [day, time] = [(i: number) => at(i).slice(0, 10), (i: number) => at(i).slice(11, 19)];
export const dotted = (i: number) => day(i).split("-").reverse().join(".");
export const b = (i: number) => bar[i].toFixed(2);
export const f = (i: number) => flow[i].toFixed(1);
export const comma = (text: string) => text.replace(".", ",");
export const lines = (...parts: (string | readonly string[])[]) => `${parts.flat().join("\n")}\n`;
export const table = (delimiter: string, heading: string, from = 0, to = ROWS) =>
  lines(
    heading,
    rows.slice(from, to).map((i) => [iso(i), b(i), f(i)].join(delimiter)),
  );
export const utf8 = (text: string) => new TextEncoder().encode(text);
/** Latin-1, which Windows-1252 shares for the letters and signs used here. */
export const latin = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
export const utf16 = (text: string, little: boolean, mark: boolean) => {
  const units = mark ? `\ufeff${text}` : text;
  const view = new DataView(new ArrayBuffer(2 * units.length));
  for (let i = 0; i < units.length; i++) view.setUint16(2 * i, units.charCodeAt(i), little);
  return new Uint8Array(view.buffer);
};

export const plain = {
  headings: ["Pressure (bar)", "Flow (L/min)"],
  values: [bar.map((v) => v * BAR), flow.map((v) => v * LITRE_PER_MINUTE)],
  rows: ROWS,
  firstInstant: at(0),
  firstLine: 2,
  rejects: [],
  questions: [],
};
export const HEADING = "Time,Pressure (bar),Flow (L/min)";
export const named = (delimiter: string) => HEADING.split(",").join(delimiter);
export const sample = (file: string, about: string, content: string | Uint8Array, truth: Partial<DialectSample> = {}): DialectSample => ({
  ...plain,
  file,
  about,
  bytes: typeof content === "string" ? utf8(content) : content,
  ...truth,
});
export const without = (skipped: (i: number) => boolean, column: 0 | 1) =>
  plain.values[column].map((value, i) => (skipped(i) ? null : value));
export const every = (delimiter: string, cell: (text: string) => string) =>
  table(",", HEADING)
    .trimEnd()
    .split("\n")
    .map((line) => line.split(",").map(cell).join(delimiter))
    .join("\n");
export const named2 = { headings: ["Pressure", "Flow"] };

export const MISSING = ["NaN", "---", "#N/A", "null", "OL", "OVER", "ERR", "n/a", "-", "No data", "Sensor fault", "1.#QNAN"];
