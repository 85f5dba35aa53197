import { FINDING_KINDS, type FindingKind, type FindingOf, type Outcome } from "../../shared/findings/finding";
import type { Observation, ObservationId } from "../../shared/findings/observation";
import { OBSERVATION_IDS, OBSERVATIONS } from "../../shared/findings/observation";
import type { DrawState, PumpState, Segments } from "../../shared/findings/segment";
import type { ChannelQuantity, ChannelRole } from "../../shared/record/channel-role";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { readSiteFacts } from "../../shared/site/read-site-facts";
import type { SiteFacts } from "../../shared/site/site-facts";
import { type GaugePascal, gaugePascal, PASCAL_PER_PSI, type PascalDifference, pascalDifference } from "../../shared/units/pressure";
import { type CubicMetrePerSecond, cubicMetrePerSecond, type Joule, joule, seconds } from "../../shared/units/quantity";

/** Hand-built evidence for diagnosis and advice: an invented site with a drive, 52 psi, 40 gpm, 20 gal tank charged to 35 psi. */
export const SITE_AS_WRITTEN = {
  setPressure: "52 psi",
  pump: "variable-speed",
  pumpRatedFlow: "40 gpm",
  tankVolume: "20 gal",
  precharge: "35 psi",
  tankRatedPressure: "125 psi",
  sensorToTank: "6 ft",
  pipeInsideDiameter: "1.25 in",
} as const;
export const siteOf = (written: Readonly<Record<string, unknown>> = SITE_AS_WRITTEN): SiteFacts => readSiteFacts(written, "site.json");
export const NO_FACTS = siteOf({});

export const psi = (p: number): GaugePascal => gaugePascal(p * PASCAL_PER_PSI);
export const psiDifference = (p: number): PascalDifference => pascalDifference(p * PASCAL_PER_PSI);
export const gpm = (q: number): CubicMetrePerSecond => cubicMetrePerSecond((q * 3.785411784e-3) / 60);
const HOUR = 3600;
/** An interval of so many per cent either way. */
export const about = <T extends number>(value: T, percent = 5) => {
  const half = (Math.abs(value) * percent) / 100;
  return { value, low: (value - half) as T, high: (value + half) as T };
};

export function channelOf(role: ChannelRole, quantity: ChannelQuantity, values: readonly number[], step = 1): Channel {
  return {
    heading: role,
    index: 1,
    role,
    position: null,
    unitInFile: null,
    quantity,
    sampling: { kind: "even", start: seconds(0), step: seconds(step), count: values.length },
    values: Float32Array.from(values),
    certainty: 1,
    reason: [],
  };
}

/** A record of a day with pressure at 52 psi, and such other channels as are asked for. */
export function recordOf(channels: readonly Channel[] = usualChannels(), hours = 24): LogRecord {
  return {
    files: [],
    clock: { kind: "elapsed" },
    duration: seconds(hours * HOUR),
    channels,
    columns: [],
    origins: [],
    rows: { accepted: 0, rejected: 0, duplicate: 0, reordered: 0 },
    rejects: [],
    questions: [],
    notes: [],
    faults: [],
  };
}
/** A draw in the first ten minutes of each hour, and a pressure that rises and falls all the time; every 15 s. */
export const usualChannels = (): Channel[] => {
  const drawing = Array.from({ length: 24 * 240 }, (_, i) => i % 240 < 40);
  return [
    channelOf(
      "pressure",
      "gaugePressure",
      drawing.map((_, i) => psi(50 + 0.1 * Math.abs((i % 80) - 40))),
      15,
    ),
    channelOf(
      "flow",
      "flow",
      drawing.map((draws) => gpm(draws ? 20 : 0)),
      15,
    ),
  ];
};

/** Runs drawn as [start, length] pairs, s. */
export function pumpWith(runs: readonly (readonly [number, number])[]): PumpState {
  return {
    basis: "speed",
    channel: "speed",
    mode: runs.length === 0 ? "always-running" : "switching",
    runs: runs.map(([from, length]) => ({ from: seconds(from), to: seconds(from + length), complete: true })),
    observed: [{ from: seconds(0), to: seconds(24 * HOUR) }],
    separation: 10,
    certainty: 1,
    pumps: [],
  };
}
export const cyclesOf = (count: number, run: number, rest: number): PumpState =>
  pumpWith(Array.from({ length: count }, (_, i) => [i * (run + rest), run] as const));

/** Nothing is drawn through half of the day. */
const drawsNow: DrawState = { basis: "flow", draws: [], idle: [{ from: seconds(0), to: seconds(12 * HOUR) }] };
/** Runs that follow each other without a rhythm: rests of a quarter of an hour to an hour and more. */
export const oddCycles = (count: number, run: number): PumpState => {
  let from = 0;
  return pumpWith(
    Array.from({ length: count }, (_, i) => {
      const one = [from, run] as const;
      from += run + 900 * (1 + ((i * 7) % 11) * 0.35);
      return one;
    }),
  );
};
export function segmentsWith(pump: PumpState | null, draw: DrawState | null = drawsNow): Segments {
  return {
    meter: { place: "after-tank", from: "given", certainty: 1 },
    pump: pump ?? { id: "no-pump-state", about: "starts", detail: {} },
    draw: draw ?? { id: "no-flow-channel", about: "tank", detail: {} },
    steady: { id: "no-flow-channel", about: "drift", detail: {} },
    tank: { id: "no-flow-channel", about: "tank", detail: {} },
  };
}

/** A finding of each kind that shows nothing remarkable at the invented site; tests change what they are about. */
const USUAL_FINDINGS: { readonly [K in FindingKind]: FindingOf<K> } = {
  "over-marked-pressure": {
    kind: "over-marked-pressure",
    places: [],
    channels: [],
    marked: psi(125),
    highest: psi(130),
    total: seconds(20),
  },
  cycling: {
    kind: "cycling",
    places: [],
    channels: [],
    starts: 24,
    startsPerHour: about(1, 40),
    peakStartsPerHour: 4,
    peakHour: null,
    allowedStartsPerHour: null,
    allowedStartsFrom: null,
    medianRun: seconds(300),
    medianRest: seconds(900),
    cutIn: null,
    cutOut: null,
    startsByDraw: { none: 0, small: 6, large: 18 },
    startsAtNight: 1,
    expectedShortestCycle: null,
  },
  "short-cycles": {
    kind: "short-cycles",
    places: [],
    channels: [],
    limit: seconds(60),
    runs: [],
    count: { value: 0, low: 0, high: 0 },
    shortest: seconds(20),
  },
  oscillation: { kind: "oscillation", places: [], channels: [], episodes: [] },
  drift: { kind: "drift", places: [], channels: [], limit: psiDifference(5), windows: [] },
  tracking: {
    kind: "tracking",
    places: [],
    channels: [],
    setPressure: psi(52),
    setPressureFrom: "given",
    meanError: psiDifference(-0.3),
    band: psiDifference(3),
    shareWithinBand: 0.97,
    lowest: psi(46),
    highest: psi(55),
    droop: null,
    worstDip: { at: seconds(100), depth: psiDifference(4), recovery: seconds(5) },
    otherSetPressure: null,
  },
  "tank-charge": {
    kind: "tank-charge",
    places: [],
    channels: [],
    gasConstant: about(joule(26000) as Joule),
    emptiesAt: null,
    emptiesBelow: null,
    liveDrawdown: null,
    expectedGasConstant: joule(25942),
  },
  "leak-down": { kind: "leak-down", places: [], channels: [], flow: about(gpm(0.4), 10), side: "system", minimumNightFlow: null },
  sensor: {
    kind: "sensor",
    places: [],
    channels: [],
    noise: psiDifference(0.1),
    noiseGrowsWithFlow: false,
    noiseGrowth: null,
    lag: about(seconds(0.5)),
    stuck: [],
    frozen: [],
    pinned: [],
    scaleRatio: null,
    resistanceBetween: null,
    equivalentDistance: null,
  },
  "pump-performance": {
    kind: "pump-performance",
    places: [],
    channels: [],
    shutoffPressure: psi(85),
    expectedShutoff: psi(86),
    lossOfPrime: [],
    overdraw: [],
    peakFlow: gpm(30),
  },
  demand: {
    kind: "demand",
    places: [],
    channels: [],
    volumePerDay: 2 as FindingOf<"demand">["volumePerDay"],
    peakHourVolume: 0.4 as FindingOf<"demand">["peakHourVolume"],
    peakHour: { from: seconds(0), to: seconds(HOUR) },
    draws: 40,
    observed: seconds(259_200),
    meter: "after-tank",
    meterFrom: "given",
  },
};

export const foundWith = <K extends FindingKind>(kind: K, change: Partial<FindingOf<K>> = {}): Outcome =>
  ({ kind, state: "found", finding: { ...USUAL_FINDINGS[kind], ...change }, limits: [] }) as Outcome;
export const clearOf = (kind: FindingKind): Outcome => ({ kind, state: "clear", limits: [] }) as Outcome;
export const untold = (kind: FindingKind): Outcome => ({ kind, state: "cannot-tell", because: [] }) as Outcome;

const CLEAR_WHERE_SOUND: readonly FindingKind[] = ["over-marked-pressure", "short-cycles", "oscillation", "drift", "leak-down"];

/** A sound site's outcomes, changed by those given. */
export function soundOutcomes(...changed: readonly Outcome[]): Outcome[] {
  return FINDING_KINDS.map(
    (kind) => changed.find((o) => o.kind === kind) ?? (CLEAR_WHERE_SOUND.includes(kind) ? clearOf(kind) : foundWith(kind)),
  );
}

/** An oscillation over two hours. */
export function swing(period: number, peakToPeak: number, drivenBy: "loop" | "demand" | "cycling" | "unknown"): Outcome {
  const episode = {
    from: seconds(0),
    to: seconds(2 * HOUR),
    channel: "pressure",
    period: about(seconds(period)),
    peakToPeak: about(psiDifference(peakToPeak)),
    heightIsLeast: false,
    meterSeesPump: false,
    regularity: 3,
    shape: "sine" as const,
    drivenBy,
    share: 0.9,
    couldBeFoldedFrom: [],
  };
  return foundWith("oscillation", { episodes: [episode] });
}

/** Observations drawn as "id level"; all others are missing. */
export function observationsOf(drawn: Readonly<Partial<Record<ObservationId, string>>>): Observation[] {
  return OBSERVATION_IDS.map((id) => {
    const levels: readonly string[] = OBSERVATIONS[id];
    const level = levels.find((l) => l === drawn[id]) ?? null;
    if (drawn[id] !== undefined && level === null) throw new RangeError(`${id} has no level ${drawn[id]}`);
    return { id, level, numbers: {} } as Observation;
  });
}
