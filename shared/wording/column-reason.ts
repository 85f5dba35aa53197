import type { ChannelRole } from "../record/channel-role";
import { sayDerivedFlow } from "./derived-flow";
import { type Sentences, sayerOf, type Told } from "./told";

const PLACES = { row: "in the units row", cells: "beside its values", above: "above the table", heading: "in its heading" } as const;

/** The unit as the file writes it and where; null where the file names none. */
type NamedUnit = { readonly text: string; readonly from: keyof typeof PLACES } | null;
const sayUnit = (unit: NamedUnit) => (unit === null ? "" : `, with ${unit.text} ${PLACES[unit.from]}`);

/** Why a column stands for what it does: one or more of these. */
const COLUMN_REASONS = {
  chosen: () => "as you chose",
  "chosen-just-now": () => "chosen by you",
  "chosen-word": ({ word }: { word: string }) => `as you chose: "${word}" is running`,
  times: () => "its cells are times",
  "no-clock": () => "it does not move with the rows",
  words: () => "its cells are words",
  "on-off-words": ({ words }: { words: readonly string[] }) => `its cells are words for on and off: ${words.join(", ")}`,
  "on-when-standing": () => "on says that it stands",
  "one-when-standing": () => "1 says that it stands",
  "number-when-running": ({ on }: { on: number }, w) => `${w.number(on)} says that it runs`,
  mark: ({ mark }: { mark: string }) => `a mark, "${mark}", stands under the name of a machine`,
  heading: ({ role, unit }: { role: ChannelRole; unit: NamedUnit }) => `its heading says ${role}${sayUnit(unit)}`,
  "heading-of-another": ({ unit }: { unit: NamedUnit }) => `its heading says that it is none of the quantities read${sayUnit(unit)}`,
  "unit-guessed": ({ unit }: { unit: string }) => `the unit ${unit} is a guess from the size of its values`,
  unit: ({ role, unit }: { role: ChannelRole; unit: string }) => `its unit ${unit} is one of ${role}`,
  "counts-rows": () => "it rises by one from row to row: a count of the rows",
  "zeros-and-ones": () => "it holds only 0 and 1 beside the name of a machine",
  nothing: () => "neither heading nor unit say what it holds",
  "missing-marks": ({ marks }: { marks: readonly number[] }, w) => `${marks.map(w.number).join(" and ")} stands for no reading`,
  "pulses-unknown": () => "it counts pulses; nothing says how much water one is",
  pulses: ({ litres }: { litres: number }, w) => `it counts pulses of ${w.number(litres)} L`,
  "meter-frequency-unknown": () => "it is the frequency of a meter; nothing says how much water one pulse is",
  "meter-frequency": ({ litres }: { litres: number }, w) => `it is the frequency of a meter with pulses of ${w.number(litres)} L`,
  "signal-without-range": ({ signal }: { signal: string }) => `a raw ${signal} signal; nothing says which range it stands for`,
  signal: ({ signal, low, high, unit }: { signal: string; low: number; high: number; unit: string }, w) =>
    `a raw ${signal} signal that stands for ${w.number(low)} to ${w.number(high)} ${unit}`,
  "derived-flow": sayDerivedFlow,
  simulated: () => "simulated",
} as const satisfies Sentences;

export type ColumnReason = readonly Told<typeof COLUMN_REASONS>[];
const sayPart = sayerOf(COLUMN_REASONS);
export const sayColumnReason = (reason: ColumnReason, locale: string | null): string =>
  reason.map((part) => sayPart(part, locale)).join("; ");
