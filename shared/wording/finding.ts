import type { Finding, FindingKind, FindingOf } from "../findings/finding";
import { strongestEpisode } from "../findings/strongest-episode";
import { formatMeasured, formatQuantity, formatRange } from "../units/format-quantity";
import { seconds } from "../units/quantity";
import type { UnitChoice } from "../units/unit-choice";
import { PUMPS_OWN_FLOW, sayDriver, WAVE_SHAPES } from "./wave";

/** What a finding says: a headline with its number, the sentences under it, and those of them that a reader in a hurry needs. */
export type Said = { readonly title: string; readonly lead: string; readonly text: string };

const DAY = 86_400; // s
const times = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;
const join = (sentences: readonly (string | null)[]) => sentences.filter((s) => s !== null).join(" ");
const body = (lead: readonly (string | null)[], more: readonly (string | null)[] = []) => ({
  lead: join(lead),
  text: join([...lead, ...more]),
});

type Sayers = { [K in FindingKind]: (finding: Extract<Finding, { kind: K }>, units: UnitChoice) => Said };

const SAYERS: Sayers = {
  "over-marked-pressure": (f, u) => ({
    title: `Pressure went above the tank's marked working pressure: ${formatQuantity(f.highest, "gaugePressure", u)} against ${formatQuantity(f.marked, "gaugePressure", u)}`,
    ...body([
      `${formatQuantity(f.total, "time", u)} in all, in ${times(f.places.length, "stretch", "stretches")}. Find out why before any other step.`,
    ]),
  }),
  cycling: (f, u) => ({
    title:
      f.starts === 0
        ? "No start of the pump in this record"
        : `${times(f.starts, "start")} of the pump, at most ${f.peakStartsPerHour} in any one hour`,
    ...body(
      [],
      [
        f.startsPerHour === null ? null : `On average ${formatMeasured(f.startsPerHour, "perHour", u)}.`,
        f.medianRun === null ? null : `Half of the runs are shorter than ${formatQuantity(f.medianRun, "time", u)}.`,
        f.medianRest === null ? null : `Half of the rests are shorter than ${formatQuantity(f.medianRest, "time", u)}.`,
        f.cutIn === null ? null : `It starts at ${formatMeasured(f.cutIn, "gaugePressure", u)}.`,
        f.cutOut === null ? null : `It stops at ${formatMeasured(f.cutOut, "gaugePressure", u)}.`,
        f.allowedStartsPerHour === null
          ? null
          : `A motor of this power started straight on the line should not exceed ${formatQuantity(f.allowedStartsPerHour, "perHour", u, 2)}.`,
        f.expectedShortestCycle === null
          ? null
          : `With the tank as stated, the shortest cycle should be ${formatQuantity(f.expectedShortestCycle, "time", u, 2)}.`,
        f.startsByDraw === null
          ? null
          : `${f.startsByDraw.none} of the starts came with no draw, ${f.startsByDraw.small} in small draws, ${f.startsByDraw.large} in large ones.`,
        f.startsAtNight === null ? null : `${f.startsAtNight} came at night.`,
      ],
    ),
  }),
  "short-cycles": (f, u) => ({
    title: `${times(f.runs.length, "run")} shorter than ${formatQuantity(f.limit, "time", u, 2)}`,
    ...body(
      [],
      [
        `The shortest lasted ${formatQuantity(f.shortest, "time", u)}.`,
        f.count.high > f.count.low
          ? `They may be ${f.count.low} to ${f.count.high}: some runs lie nearer to the limit than the log's interval.`
          : null,
        "Runs cut by a gap or an end of the record are not counted.",
      ],
    ),
  }),
  oscillation: (f, u) => {
    const strongest = strongestEpisode(f.episodes) ?? f.episodes[0];
    const folded = strongest.couldBeFoldedFrom.map((s) => formatQuantity(s, "time", u, 2));
    return {
      title: `Pressure oscillates: period ${formatMeasured(strongest.period, "time", u)}, ${f.episodes.length > 1 ? "up to " : ""}${formatMeasured(strongest.peakToPeak, "pressureDifference", u)}${strongest.heightIsLeast ? " or more" : ""} from crest to trough`,
      ...body(
        [
          `${times(f.episodes.length, "stretch", "stretches")}, ${formatQuantity(
            f.episodes.reduce((sum, e) => sum + e.to - e.from, 0),
            "time",
            u,
            2,
          )} in all.`,
          `${sayDriver(f.episodes)}.`,
          f.episodes.some((e) => e.meterSeesPump) ? PUMPS_OWN_FLOW : null,
        ],
        [
          `The wave is ${WAVE_SHAPES[strongest.shape]}.`,
          strongest.heightIsLeast ? "With so few samples a wave its crests and troughs may go farther; log faster to see them." : null,
          folded.length === 0
            ? null
            : `At this sampling a faster wave of ${folded.slice(0, 3).join(" or ")} would look the same; log faster to rule it out.`,
        ],
      ),
    };
  },
  drift: (f, u) => {
    const over = f.windows.filter((w) => w.over);
    const largest = f.windows.reduce((a, b) => (Math.abs(b.change.value) > Math.abs(a.change.value) ? b : a));
    return {
      title: `${over.length === 0 ? "Pressure holds" : "Pressure drifts"} at steady flow: largest change ${formatMeasured(largest.change, "pressureDifference", u)} in ${formatQuantity(largest.to - largest.from, "time", u, 2)}`,
      ...body([
        `${over.length} of ${times(f.windows.length, "stretch", "stretches")} of steady draw ${over.length === 1 ? "is" : "are"} over the limit of ${formatQuantity(f.limit, "pressureDifference", u, 2)}.`,
      ]),
    };
  },
  tracking: (f, u) => ({
    title:
      f.shareWithinBand === null || f.setPressure === null || f.band === null
        ? `Pressure from ${formatRange(f.lowest, f.highest, "gaugePressure", u, 3)}`
        : `Within ${formatQuantity(f.band, "pressureDifference", u, 2)} of ${formatQuantity(f.setPressure, "gaugePressure", u)} for ${formatQuantity(f.shareWithinBand, "fraction", u)} of the time the pump ran`,
    // Without a set pressure the headline holds these numbers already.
    ...body(f.shareWithinBand === null || f.setPressure === null || f.band === null ? [] : [sayLowestAndHighest(f, u)], [
      f.shareWithinBand === null || f.setPressure === null || f.band === null ? sayLowestAndHighest(f, u) : null,
      f.setPressureFrom === "log" ? "The set pressure was read from the log, not given." : null,
      f.meanError === null
        ? null
        : `On average ${formatQuantity(Math.abs(f.meanError), "pressureDifference", u, 2)} ${f.meanError < 0 ? "below" : "above"} it.`,
      f.otherSetPressure === null ? null : sayOtherSetPressure(f.otherSetPressure, u),
      f.worstDip === null
        ? null
        : `Worst dip when a draw began: ${formatQuantity(f.worstDip.depth, "pressureDifference", u)}${f.worstDip.recovery === null ? "" : `, back within the band after ${formatQuantity(f.worstDip.recovery, "time", u, 2)}`}.`,
    ]),
  }),
  "tank-charge": (f, u) => ({
    title:
      f.emptiesAt !== null
        ? `The tank runs empty at ${formatMeasured(f.emptiesAt, "gaugePressure", u)}: that is its true precharge`
        : f.gasConstant !== null
          ? `${givesLess(f) ?? "The tank works"}${f.emptiesBelow === null ? "" : `; its true precharge lies below ${formatQuantity(f.emptiesBelow, "gaugePressure", u)}`}`
          : "What the tank holds cannot be read from this log",
    ...body(
      [],
      [
        f.gasConstant === null
          ? null
          : `Pressure times gas volume is ${formatMeasured(f.gasConstant, "none", u)}${"\u202f"}J, from metered draws with the pump off.`,
        f.gasConstant === null || f.expectedGasConstant === null
          ? null
          : `The stated volume and precharge would give ${formatQuantity(f.expectedGasConstant, "none", u)}${"\u202f"}J (ratio ${formatQuantity(f.gasConstant.value / f.expectedGasConstant, "ratio", u, 2)}).`,
        f.liveDrawdown === null ? null : `Between stop and start it gives ${formatMeasured(f.liveDrawdown, "volume", u)}.`,
      ],
    ),
  }),
  "leak-down": (f, u) => ({
    title: `Pressure falls with the pump off and nothing drawn: ${formatMeasured(f.flow, "flow", u)} is lost`,
    ...body(
      [
        `${formatQuantity(f.flow.value * 86400, "volumePerDay", u, 2)} if it goes on like that.`,
        {
          system: "The meter sees it: it leaves on the system side.",
          back: "The meter does not see it: it leaves back through the check valve or before the meter.",
          unknown: "Which way it leaves cannot be told without a meter.",
        }[f.side],
      ],
      [f.minimumNightFlow === null ? null : `Least flow at night: ${formatQuantity(f.minimumNightFlow, "flow", u, 2)}.`],
    ),
  }),
  sensor: (f, u) => ({
    title:
      f.stuck.length + f.frozen.length > 0
        ? `The pressure signal stood still in ${times(f.stuck.length + f.frozen.length, "stretch", "stretches")} while the system moved`
        : f.pinned.length > 0
          ? "The pressure signal sat at an end of its range"
          : f.noise === null
            ? "The pressure signal"
            : `Noise of the pressure signal: ${formatQuantity(f.noise, "pressureDifference", u, 2)}`,
    ...body(
      [],
      [
        f.noiseGrowsWithFlow === null
          ? null
          : f.noiseGrowsWithFlow
            ? "It grows with the square of flow, as in turbulence."
            : "It does not grow with flow.",
        f.lag === null ? null : `The signal lags by ${formatMeasured(f.lag, "time", u)}.`,
        f.scaleRatio === null
          ? null
          : `It reads ${formatQuantity(f.scaleRatio, "ratio", u, 2)} times what the site facts lead one to expect: check range and signal type.`,
        f.equivalentDistance === null
          ? null
          : `Between the two pressures lies as much resistance as ${formatMeasured(f.equivalentDistance, "length", u)} of the stated pipe.`,
      ],
    ),
  }),
  "pump-performance": (f, u) => ({
    title:
      f.lossOfPrime.length > 0
        ? `Pressure and flow collapsed while the pump ran, ${times(f.lossOfPrime.length, "time")}: it may have lost its prime`
        : f.overdraw.length > 0
          ? `At full speed the pump did not hold the pressure, ${times(f.overdraw.length, "time")}`
          : "What the pump gave",
    ...body([
      f.shutoffPressure === null
        ? null
        : `At full speed and little flow it reached ${formatQuantity(f.shutoffPressure, "gaugePressure", u)}.`,
      f.expectedShutoff === null ? null : `${formatQuantity(f.expectedShutoff, "gaugePressure", u)} would be expected.`,
      f.peakFlow === null ? null : `Highest flow held for a minute: ${formatQuantity(f.peakFlow, "flow", u)}.`,
    ]),
  }),
  demand: (f, u) => ({
    title: `${sayDemand(f, u)}${f.draws === null ? "" : `, in ${times(f.draws, "draw")}`}`,
    ...body([
      `Busiest hour: ${formatQuantity(f.peakHourVolume, "volume", u)}.`,
      f.meter === null
        ? null
        : `The flow meter stands ${f.meter === "after-tank" ? "after" : "before"} the tank${f.meterFrom === "log" ? ", as the log shows" : ""}.`,
    ]),
  }),
};

const sayLowestAndHighest = ({ lowest, highest }: FindingOf<"tracking">, u: UnitChoice) =>
  `Lowest ${formatQuantity(lowest, "gaugePressure", u)}, highest ${formatQuantity(highest, "gaugePressure", u)}.`;

const sayOtherSetPressure = ({ level, times: when }: NonNullable<FindingOf<"tracking">["otherSetPressure"]>, u: UnitChoice) =>
  `For ${formatQuantity(seconds(when.reduce((sum, { from, to }) => sum + to - from, 0)), "time", u, 2)} the drive held ${formatQuantity(level, "gaugePressure", u)} instead, and changed to it and back at once: a second set pressure by the clock, as a night setback. There the pressure is judged by that one.`;

/** A day's water; of a shorter record only what was drawn in it. */
const sayDemand = ({ volumePerDay, observed }: FindingOf<"demand">, u: UnitChoice): string =>
  observed < DAY
    ? `${formatQuantity((volumePerDay * observed) / DAY, "volume", u)} drawn in ${formatQuantity(observed, "time", u, 2)}`
    : `${formatQuantity(volumePerDay, "volumePerDay", u)} drawn`;

/** Fast gas that keeps its heat is up to 1.4 times as stiff; only a tank below even that is said to give less than it should. */
function givesLess({ gasConstant, expectedGasConstant }: FindingOf<"tank-charge">): string | null {
  if (gasConstant === null || expectedGasConstant === null || gasConstant.high > expectedGasConstant / 1.4) return null;
  return `The tank has ${Math.round((100 * gasConstant.value) / expectedGasConstant)} % of the give that its stated size and charge would have`;
}
/** A finding in words, with its numbers in the reader's units. */
export function sayFinding(finding: Finding, units: UnitChoice): Said {
  const say = SAYERS[finding.kind] as (f: Finding, u: UnitChoice) => Said;
  return say(finding, units);
}

/** What was asked of the record, for the list of questions that found nothing. */
export const QUESTIONS: { readonly [K in FindingKind]: string } = {
  "over-marked-pressure": "Did pressure pass the tank's marked working pressure?",
  cycling: "How does the pump switch?",
  "short-cycles": "Are there short cycles?",
  oscillation: "Does the pressure oscillate?",
  drift: "Does pressure drift at steady flow?",
  tracking: "Does pressure keep to its set pressure?",
  "tank-charge": "What does the tank hold?",
  "leak-down": "Does pressure leak down?",
  sensor: "Is the sensor sound?",
  "pump-performance": "Does the pump give what it should?",
  demand: "How much was drawn?",
};

/** How each finding is worked out, in a sentence. */
export const METHODS: { readonly [K in FindingKind]: string } = {
  "over-marked-pressure": "Every recorded pressure compared with the pressure marked on the tank.",
  cycling:
    "Runs and rests from the best witness of the pump's state, two levels with hysteresis; starts counted in every rolling hour; rates with the exact Poisson interval.",
  "short-cycles": "Complete runs of the pump shorter than the site's limit.",
  oscillation:
    "Periodogram of the detrended pressure against its local background, confirmed by the regularity of the autocorrelation's zero crossings, refined by a least-squares sinusoid.",
  drift: "Stretches of steady flow by change points; median of pairwise slopes times length, the interval widened for autocorrelation.",
  tracking: "Recorded pressure against set pressure while the pump ran.",
  "tank-charge":
    "With the pump off, one over absolute pressure rises in proportion to the water drawn; the slope gives pressure times gas volume, the knee the pressure at which the tank is empty.",
  "leak-down": "Fall of pressure with the pump off and nothing drawn, turned into water by the gas law.",
  sensor: "Fast scatter of the signal, its growth with flow, its delay behind flow steps, its standing still.",
  "pump-performance": "Pressure at full speed and little flow, and stretches where pressure and flow fell while the pump ran.",
  demand: "Metered volume over the record.",
};

/** What would make a finding wrong. */
export const WRONG_IF: { readonly [K in FindingKind]: string } = {
  "over-marked-pressure": "The marked pressure was entered wrongly, or the sensor's range is wrong.",
  cycling:
    "The witness is not the pump (another consumer on the same current, a second pump not logged), or it switches faster than it is logged.",
  "short-cycles": "The pump state rests on pressure alone and draws start and stop faster than the pump.",
  oscillation: "A regular demand looks like it (a filter, an irrigation valve), or a faster wave folds onto this period.",
  drift: "The flow meter is too coarse to show that the draw changed, or the set pressure was changed.",
  tracking: "The set pressure changed during the record in another way than by the clock, or differs from the one stated.",
  "tank-charge": "The flow meter does not see all water that leaves the tank, or fast draws cool the gas.",
  "leak-down": "A small draw below the meter's least flow went on, or the gas cooled after a fast fill.",
  sensor: "Real fast pressure changes look like noise.",
  "pump-performance": "The drive was limited below full speed, or the suction side was low.",
  demand: "The meter stands before the tank or misses small flows.",
};
