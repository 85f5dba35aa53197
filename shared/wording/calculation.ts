import type { Finding, FindingKind } from "../findings/finding";
import { type Span, spanLength } from "../findings/span";
import { strongestEpisode } from "../findings/strongest-episode";
import type { Clock } from "../record/clock";
import type { Fact, SiteFacts } from "../site/site-facts";
import { formatMeasured, formatQuantity, type Shown } from "../units/format-quantity";
import type { Measured } from "../units/measured";
import type { UnitChoice } from "../units/unit-choice";
import { saySpan } from "./instant";

/** Where a number of a calculation comes from. */
export type Origin = "given" | "company" | "assumed" | "log" | "worked out";
/** A number that went into a finding or came out of it, and where it comes from. */
export type CalculationLine = { readonly what: string; readonly value: string; readonly from: Origin };
export type CalculationTable = { readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] };

/** How a finding was worked out, with the site's own numbers put in. */
export type Calculation = {
  /** In symbols, with what they stand for; null where a count or a comparison needs none. */
  readonly formula: string | null;
  readonly lines: readonly CalculationLine[];
  /** Place by place, longest or largest first; null where there is one number only. */
  readonly table: CalculationTable | null;
};

type Context = { readonly site: SiteFacts; readonly clock: Clock; readonly units: UnitChoice };
type Maker<K extends FindingKind> = (finding: Extract<Finding, { kind: K }>, context: Context) => Calculation;

const line = (what: string, value: string, from: Origin): CalculationLine => ({ what, value, from });
const maybe = <T>(value: T | null, make: (value: T) => CalculationLine): readonly CalculationLine[] =>
  value === null ? [] : [make(value)];
const plain = (formula: string | null, ...lines: readonly (readonly CalculationLine[])[]): Calculation => ({
  formula,
  lines: lines.flat(),
  table: null,
});

const count = (n: number, { units }: Context) => formatQuantity(n, "count", units);

/** A fact as it was used: in the reader's units, with its origin. */
const fact = (what: string, f: Fact<number> | null, shown: Shown, { units }: Context) =>
  maybe(f, (known) => line(what, formatQuantity(known.value, shown, units), known.from));
const seen = (what: string, value: number | null, shown: Shown, { units }: Context) =>
  maybe(value, (v) => line(what, formatQuantity(v, shown, units), "log"));
const worked = (what: string, value: number | null, shown: Shown, { units }: Context) =>
  maybe(value, (v) => line(what, formatQuantity(v, shown, units), "worked out"));
const measured = (what: string, m: Measured | null, shown: Shown, { units }: Context) =>
  maybe(m, (known) => line(what, formatMeasured(known, shown, units), "log"));
const joules = (what: string, value: number | null, from: "log" | "worked out", { units }: Context) =>
  maybe(value, (v) => line(what, `${formatQuantity(v, "none", units)}\u202fJ`, from));

const tankFacts = (c: Context) => [
  ...fact("Total tank volume", c.site.tankVolume, "volume", c),
  ...fact("Precharge", c.site.precharge, "gaugePressure", c),
  ...fact("Air pressure at the site", c.site.atmosphere, "absolutePressure", c),
];

const MAKERS: { readonly [K in FindingKind]: Maker<K> } = {
  "over-marked-pressure": (f, c) => ({
    formula: null,
    lines: [
      ...fact("Marked on the tank", c.site.tankRatedPressure, "gaugePressure", c),
      ...seen("Highest recorded", f.highest, "gaugePressure", c),
      ...worked("Above the mark by", f.highest - f.marked, "pressureDifference", c),
      ...seen("Time above the mark", f.total, "time", c),
      line("Stretches above it", count(f.places.length, c), "log"),
    ],
    table: null,
  }),
  cycling: (f, c) =>
    plain(
      f.expectedShortestCycle === null
        ? null
        : "Shortest cycle T = 4 V / Q, V the water between cut-out and cut-in by Boyle's law, Q the pump's flow; MIL-HDBK-1005/9A",
      [line("Starts counted", count(f.starts, c), "log"), line("Most in any 60 minutes", count(f.peakStartsPerHour, c), "log")],
      measured("Starts per hour observed", f.startsPerHour, "perHour", c),
      fact("Motor power", c.site.motorPower, "power", c),
      worked("Starts per hour allowed", f.allowedStartsPerHour, "perHour", c),
      seen("Middle length of the runs", f.medianRun, "time", c),
      seen("Middle length of the rests", f.medianRest, "time", c),
      measured("Cut-in", f.cutIn, "gaugePressure", c),
      measured("Cut-out", f.cutOut, "gaugePressure", c),
      f.expectedShortestCycle === null ? [] : [...tankFacts(c), ...fact("Rated flow of the pump", c.site.pumpRatedFlow, "flow", c)],
      worked("Shortest cycle with that tank", f.expectedShortestCycle, "time", c),
      maybe(f.startsByDraw, ({ none, small, large }) =>
        line("Starts with no draw, in small ones, in large ones", [none, small, large].map((n) => count(n, c)).join("; "), "log"),
      ),
      seen("Starts at night", f.startsAtNight, "count", c),
    ),
  "short-cycles": (f, c) => ({
    formula: null,
    lines: [
      line("A run is short below", formatQuantity(f.limit, "time", c.units), c.site.shortCycleLimit.from),
      line("Complete runs below it", count(f.runs.length, c), "log"),
      ...seen("Shortest of them", f.shortest, "time", c),
    ],
    table: placesTable(f.places, c, "Run", "Length"),
  }),
  oscillation: (f, c) => ({
    formula: null,
    lines: [
      ...fact("Limit, peak to peak", c.site.limits.oscillationPeakToPeak, "pressureDifference", c),
      line("Stretches", count(f.episodes.length, c), "log"),
      ...worked("All of them together", total(f.episodes), "time", c),
      ...DRIVERS.flatMap(({ by, what }) => {
        const own = total(f.episodes.filter(({ drivenBy }) => drivenBy === by));
        return own === 0 ? [] : worked(what, own / total(f.episodes), "fraction", c);
      }),
      ...maybe(strongestEpisode(f.episodes), (e) =>
        line(
          "Faster waves that would look the same",
          e.couldBeFoldedFrom.map((s) => formatQuantity(s, "time", c.units)).join("; "),
          "worked out",
        ),
      ).filter(({ value }) => value !== ""),
    ],
    table: {
      head: ["When", "Channel", "Period", "Peak to peak", "Share of the swing in this tone"],
      rows: mostOf(f.episodes, (e) => e.peakToPeak.low).map((e) => [
        saySpan(c.clock, e, c.units.locale),
        e.channel,
        formatMeasured(e.period, "time", c.units),
        `${e.heightIsLeast ? "at least " : ""}${formatMeasured(e.peakToPeak, "pressureDifference", c.units)}`,
        formatQuantity(e.share, "fraction", c.units, 2),
      ]),
    },
  }),
  drift: (f, c) => ({
    formula: "Change = slope x length; the slope is the median of the slopes between pairs of samples (Theil 1950, Sen 1968)",
    lines: [
      line("Limit", formatQuantity(f.limit, "pressureDifference", c.units), c.site.limits.driftAtSteadyFlow.from),
      line("Stretches of steady draw", count(f.windows.length, c), "log"),
      line("Of these over the limit", count(f.windows.filter(({ over }) => over).length, c), "log"),
    ],
    table: {
      head: ["When", "Length", "Mean flow", "Change", "Against the limit"],
      rows: mostOf(f.windows, (w) => Math.abs(w.change.value)).map((w) => [
        saySpan(c.clock, w, c.units.locale),
        formatQuantity(w.to - w.from, "time", c.units),
        w.meanFlow === null ? "not logged" : formatQuantity(w.meanFlow, "flow", c.units),
        formatMeasured(w.change, "pressureDifference", c.units),
        w.over ? "over" : "within",
      ]),
    },
  }),
  tracking: (f, c) =>
    plain(
      null,
      maybe(f.setPressure, (p) => line("Set pressure", formatQuantity(p, "gaugePressure", c.units), f.setPressureFrom ?? "log")),
      maybe(f.band, (band) => line("Band, either side", formatQuantity(band, "pressureDifference", c.units), c.site.limits.band.from)),
      seen("Share of the time within it", f.shareWithinBand, "fraction", c),
      seen("Mean distance from set pressure", f.meanError, "pressureDifference", c),
      seen("Lowest", f.lowest, "gaugePressure", c),
      seen("Highest", f.highest, "gaugePressure", c),
      maybe(f.worstDip, (dip) => line("Deepest dip", formatQuantity(dip.depth, "pressureDifference", c.units), "log")),
      seen("Back within the band after", f.worstDip?.recovery ?? null, "time", c),
    ),
  "tank-charge": (f, c) =>
    plain(
      "1/p = 1/p(full) + V/K while the tank alone gives water; K = precharge x total volume, pressures absolute; Boyle's law",
      maybe(f.gasConstant, (k) => line("K as the log shows it", `${formatMeasured(k, "none", c.units)}\u202fJ`, "log")),
      tankFacts(c),
      joules("K from those facts", f.expectedGasConstant, "worked out", c),
      worked(
        "The log's K, of that",
        f.gasConstant === null || f.expectedGasConstant === null ? null : f.gasConstant.value / f.expectedGasConstant,
        "fraction",
        c,
      ),
      measured("Empties at", f.emptiesAt, "gaugePressure", c),
      seen("Still gave water at", f.emptiesBelow, "gaugePressure", c),
      measured("Water between stop and start", f.liveDrawdown, "volume", c),
    ),
  "leak-down": (f, c) => ({
    formula: "q = K x change of 1/p per time, pump off and nothing drawn; K = precharge x total volume, pressures absolute",
    lines: [
      ...tankFacts(c),
      ...measured("Loss", f.flow, "flow", c),
      ...worked("In a day", f.flow.value * 86400, "volumePerDay", c),
      ...seen("Least flow at night", f.minimumNightFlow, "flow", c),
    ],
    table: placesTable(f.places, c, "Quiet stretch", "Length"),
  }),
  sensor: (f, c) =>
    plain(
      f.equivalentDistance === null
        ? null
        : "Difference of two pressures = resistance x flow squared; the resistance as a length of the stated pipe",
      seen("Fast scatter of the signal", f.noise, "pressureDifference", c),
      measured("Lag", f.lag, "time", c),
      seen("Reading against what the facts expect", f.scaleRatio, "ratio", c),
      fact("Inside diameter of the pipe", c.site.pipeInsideDiameter, "bore", c),
      measured("Equivalent length between the pressures", f.equivalentDistance, "length", c),
    ),
  "pump-performance": (f, c) =>
    plain(
      null,
      seen("Reached at full speed and little flow", f.shutoffPressure, "gaugePressure", c),
      worked("To be expected", f.expectedShutoff, "gaugePressure", c),
      fact("Rated flow of the pump", c.site.pumpRatedFlow, "flow", c),
      seen("Highest flow held for a minute", f.peakFlow, "flow", c),
    ),
  demand: (f, c) =>
    plain(
      null,
      [line("Draws counted", f.draws === null ? "not known" : count(f.draws, c), "log")],
      seen("Drawn in a day", f.volumePerDay, "volumePerDay", c),
      seen("Drawn in the busiest hour", f.peakHourVolume, "volume", c),
      [line("Busiest hour", saySpan(c.clock, f.peakHour, c.units.locale), "log")],
    ),
};

const total = (spans: readonly Span[]): number => spans.reduce((sum, span) => sum + spanLength(span), 0);
const DRIVERS = [
  { by: "loop", what: "Driven by the control loop, of that time" },
  { by: "demand", what: "Driven by the demand, of that time" },
  { by: "cycling", what: "Going with starts and stops, of that time" },
  { by: "unknown", what: "Not known by what, of that time" },
] as const;

const MOST_ROWS = 12;

/** The largest few, largest first: a table is to be read, the whole list is in the export. */
function mostOf<T>(items: readonly T[], size: (item: T) => number): readonly T[] {
  return items.toSorted((a, b) => size(b) - size(a)).slice(0, MOST_ROWS);
}

function placesTable(places: Finding["places"], { clock, units }: Context, what: string, length: string): CalculationTable | null {
  if (places.length === 0) return null;
  const rows = places.slice(0, MOST_ROWS).map((p) => [saySpan(clock, p, units.locale), formatQuantity(p.to - p.from, "time", units)]);
  return { head: [what, length], rows };
}

/** The calculation of a finding as a person would write it down, in the reader's units. */
export function calculationOf(finding: Finding, context: Context): Calculation {
  const make = MAKERS[finding.kind] as Maker<FindingKind>;
  return make(finding, context);
}

const FROM: Readonly<Record<Origin, string>> = {
  company: "the company's limit",
  given: "given",
  assumed: "assumed",
  log: "from the log",
  "worked out": "worked out",
};
export const sayOrigin = (from: Origin): string => FROM[from];
