import type { CyclingFinding } from "../../../shared/findings/finding";
import type { PumpState, Run } from "../../../shared/findings/segment";
import { type Span, spanLength } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import { SENSOR_WITHIN } from "../practice";
import { commonestGap, isRhythm } from "./rhythm";
import { drawsOf, found, isClear, isFixedSpeed, type Looks, levelFor, pumpOf, type Sight, setPressureOf } from "./sight";

/** Starts per hour where nothing else is said: pumps up to 3/4 hp. Pressurised well-tank standard as quoted on a public page. */
const STARTS_WITHOUT_FACTS = 15;
/** Motor practice is for starts across the line; a drive's soft start bears more, so its figure is not taken for a drive. */
const byMotor = (cycling: CyclingFinding, fixedSpeed: boolean) => (fixedSpeed ? cycling.allowedStartsPerHour : null);

/**
 * Starts that may be made in an hour; null for a drive: no published figure covers soft starts, and many starts are its short runs once more. A speed is
 * logged where there is one to log: at a drive.
 */
function allowedStarts({ site, record }: Sight, cycling: CyclingFinding): number | null {
  if (site.pump === "variable-speed" || (site.pump === null && mainChannel(record, "speed") !== null)) return null;
  return site.limits.startsPerHour?.value ?? byMotor(cycling, isFixedSpeed(site)) ?? STARTS_WITHOUT_FACTS;
}

/**
 * A tank of practice size gives a minute of the pump's rated flow between the pressures of its switch, and fifteen starts in the worst hour (T = 4 V/Q); the
 * pump gives up to a third more than its rating on the way there, and the tank is sound all the same. Common practice, no source.
 */
const OVER_RATING = 4 / 3;

const MOSTLY = 0.5; // of the whole runs
const NONE_SHORT = { value: 0, low: 0, high: 0 };
const LEAST_RUNS = 4; // fewer have no usual length
const LEAST_STARTS = 12; // fewer show no rhythm
/** Record needed before "never stops" or a rate per hour means something, s. */
const LEAST_RECORD = 1800;

/** Runs for all but this share of the time it was watched. */
const HARDLY = 0.03;
function hardlyStops({ mode, runs, observed }: PumpState): boolean {
  const total = (spans: readonly Span[]) => spans.reduce((sum, s) => sum + spanLength(s), 0);
  return mode === "switching" && total(runs) > (1 - HARDLY) * total(observed);
}

const completeRuns = (runs: readonly Run[]) => runs.filter((run) => run.complete);

/** Times from start to start where the run between is complete, s, ascending. */
function cycles(runs: readonly Run[]): number[] {
  const times: number[] = [];
  for (let i = 1; i < runs.length; i++) if (runs[i - 1].complete) times.push(runs[i].from - runs[i - 1].from);
  return times.sort((a, b) => a - b);
}

export const cyclingLooks: Pick<
  Looks,
  | "pump-kind"
  | "starts"
  | "runs"
  | "starts-without-draw"
  | "starts-in-small-draws"
  | "cycle-against-tank"
  | "switching-band"
  | "start-rhythm"
> = {
  "pump-kind": ({ site }) => {
    if (site.pump === null && !isFixedSpeed(site)) return null;
    return { level: isFixedSpeed(site) ? "switch" : "drive", numbers: {} };
  },
  starts(sight) {
    const cycling = found(sight, "cycling");
    if (cycling === null || pumpOf(sight) === null || sight.record.duration < LEAST_RECORD) return null;
    const allowed = allowedStarts(sight, cycling);
    if (allowed === null) return null;
    const perHour = Math.max(cycling.peakStartsPerHour, sight.record.duration < 3600 ? (cycling.startsPerHour?.value ?? 0) : 0);
    return {
      level: levelFor(perHour / allowed, [isFixedSpeed(sight.site) ? OVER_RATING : 1, 3], ["few", "many", "very-many"]),
      numbers: { perHour, allowed },
    };
  },
  runs(sight) {
    const pump = pumpOf(sight);
    if (pump === null || sight.record.duration < LEAST_RECORD) return null;
    const never = pump.mode === "always-running" || hardlyStops(pump);
    // a drive runs as long as something is drawn, at whatever speed that takes: that it never stops tells of a site that draws all day
    if (never && !isFixedSpeed(sight.site)) return null;
    if (never) return { level: "never-stops", numbers: { duration: sight.record.duration } };
    const complete = completeRuns(pump.runs).length;
    if ((found(sight, "short-cycles") === null && !isClear(sight, "short-cycles")) || complete < LEAST_RUNS) return null;
    const limit = sight.site.shortCycleLimit.value;
    const least = isFixedSpeed(sight.site) ? limit / OVER_RATING : limit;
    const finding = found(sight, "short-cycles");
    const short = (finding?.runs ?? []).filter((i) => spanLength(pump.runs[i]) < least).length;
    // Runs about as long as the interval of the log may be short or not: where that leaves open whether most are, nothing is said.
    const { value, low, high } = finding?.count ?? NONE_SHORT;
    const areMost = (count: number) => count / complete >= MOSTLY;
    if (areMost(short - (value - low)) !== areMost(short + (high - value))) return null;
    const level = levelFor(short / complete, [0.05, MOSTLY], ["long", "some-short", "mostly-short"]);
    return { level, numbers: { short, complete, limit: least, share: short / complete } };
  },
  "starts-without-draw"(sight) {
    const by = found(sight, "cycling")?.startsByDraw ?? null;
    const total = by === null ? 0 : by.none + by.small + by.large;
    if (by === null || total < LEAST_RUNS || drawsOf(sight)?.basis !== "flow") return null;
    return { level: by.none / total > 0.3 ? "often" : "rare", numbers: { count: by.none, total, share: by.none / total } };
  },
  "starts-in-small-draws"(sight) {
    const by = found(sight, "cycling")?.startsByDraw ?? null;
    const total = by === null ? 0 : by.none + by.small + by.large;
    if (by === null || total < LEAST_RUNS || drawsOf(sight)?.basis !== "flow") return null;
    return { level: by.small / total > 0.5 ? "often" : "rare", numbers: { count: by.small, total, share: by.small / total } };
  },
  /** The shortest of many cycles against T = 4 V / Q; the tenth part from below stands for "shortest", so that one odd cycle does not decide. */
  "cycle-against-tank"(sight) {
    const expected = found(sight, "cycling")?.expectedShortestCycle ?? null;
    const times = cycles(pumpOf(sight)?.runs ?? []);
    if (expected === null || expected <= 0 || times.length < 6) return null;
    const shortest = times[Math.floor(times.length / 10)];
    // a switch behind a long pipe is tripped by the surge in it, whatever the tank gives
    if (shortest < 0.5 * expected && (sight.site.sensorToTank?.value ?? 0) > SENSOR_WITHIN) return null;
    return { level: shortest < 0.5 * expected ? "shorter" : "as-allowed", numbers: { shortest, expected } };
  },
  "start-rhythm"(sight) {
    const starts = (pumpOf(sight)?.runs ?? []).map((run) => run.from);
    if (starts.length < LEAST_STARTS) return null;
    const { gap, share } = commonestGap(starts);
    return { level: isRhythm(share, starts.length) ? "regular" : "irregular", numbers: { gap, share } };
  },
  "switching-band"(sight) {
    const cycling = found(sight, "cycling");
    const set = setPressureOf(sight);
    if (isFixedSpeed(sight.site) || set === null || !(set > 0) || cycling === null || cycling.cutIn === null || cycling.cutOut === null)
      return null;
    const band = cycling.cutOut.value - cycling.cutIn.value;
    return { level: levelFor(band / set, [0.05, 0.35], ["narrow", "usual", "wide"]), numbers: { band, setPressure: set } };
  },
};
