export const PRACTICE = "common practice, no source";
export const BOYLE = "Boyle's law";

/** Where steps of the advice come from. */
const SOURCES = {
  practice: PRACTICE,
  boyle: BOYLE,
  "boyle-and-standards": `${BOYLE}; MIL-HDBK-1005/9A sec. 2.5.3.6; WA DOH 331-123 eq. 11-1`,
  "boyle-over-time": `${BOYLE}, q = K d(1/p)/dt`,
  "mass-on-a-spring": "mass on a spring, T = 2 pi sqrt(I C)",
  "second-order": "second-order form of an integrator under PI control",
  "loop-tuning": "Ziegler and Nichols 1942; Skogestad 2003",
  "marking-on-the-tank": "working pressure marked on the tank; Idaho IDAPA 58.01.08.547.01.d",
} as const;

export type SourceId = keyof typeof SOURCES;
export const saySource = (id: SourceId): string => SOURCES[id];
