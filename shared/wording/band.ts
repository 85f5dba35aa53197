/** The bands under the trace, in the order they stand. */
export const BAND_KINDS = [
  "over-marked-pressure",
  "running",
  "short-cycles",
  "draw",
  "steady",
  "drift",
  "oscillation",
  "leak-down",
  "log-fault",
] as const;
export type BandKind = (typeof BAND_KINDS)[number];

/** A band's name, and what one of its places is. */
export const BAND_WORDS: { readonly [K in BandKind]: { readonly title: string; readonly place: string } } = {
  "over-marked-pressure": { title: "Over tank mark", place: "Pressure above the tank's marked working pressure" },
  running: { title: "Running", place: "The pump ran" },
  "short-cycles": { title: "Short cycles", place: "A run shorter than the limit" },
  draw: { title: "Draw", place: "Water was drawn" },
  steady: { title: "Steady draw", place: "Draw without a change" },
  drift: { title: "Drift", place: "Pressure drifted over the limit while the draw was steady" },
  oscillation: { title: "Oscillation", place: "Pressure swung regularly" },
  "leak-down": { title: "Leak-down", place: "Pressure sank with the pump off and nothing drawn" },
  "log-fault": { title: "Log fault", place: "The log itself is at fault here" },
};
