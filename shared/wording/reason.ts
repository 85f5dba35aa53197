import type { Reason } from "../findings/cause";
import type { Level, Numbers, ObservationId } from "../findings/observation";
import { formatQuantity } from "../units/format-quantity";
import type { UnitChoice } from "../units/unit-choice";
import type { Sayer, Write } from "./sayer";
import { TANK_SENTENCES } from "./tank-reason";

/** What each answer says, with its numbers: complete sentences that stand by themselves. */
const SENTENCES: { readonly [K in ObservationId]: Readonly<Record<string, Sayer>> } = {
  "pump-kind": {
    drive: () => "A drive holds the pressure by its speed.",
    switch: () => "A pressure switch starts and stops the pump: there is no loop to set.",
  },
  starts: {
    few: (w) => `At most ${w("perHour", "count", 2)} starts in an hour, within the ${w("allowed", "count", 2)} allowed.`,
    many: (w) => `Up to ${w("perHour", "count", 2)} starts in an hour, over the ${w("allowed", "count", 2)} allowed.`,
    "very-many": (w) => `Up to ${w("perHour", "count", 2)} starts in an hour, far over the ${w("allowed", "count", 2)} allowed.`,
  },
  runs: {
    long: (w) => `Hardly any run is shorter than ${w("limit", "time", 2)} (${w("short", "count")} of ${w("complete", "count")}).`,
    "some-short": (w) => `${w("short", "count")} of ${w("complete", "count")} runs are shorter than ${w("limit", "time", 2)}.`,
    "mostly-short": (w) => `Most runs are shorter than ${w("limit", "time", 2)} (${w("short", "count")} of ${w("complete", "count")}).`,
    "never-stops": () => "The pump never stops in this record.",
  },
  "starts-without-draw": {
    rare: (w) => `Of ${w("total", "count")} starts only ${w("count", "count")} came while nothing was drawn.`,
    often: (w) => `${w("count", "count")} of ${w("total", "count")} starts came while nothing was drawn.`,
  },
  "starts-in-small-draws": {
    rare: (w) => `Few starts came in small draws (${w("count", "count")} of ${w("total", "count")}).`,
    often: (w) => `Most starts came in small draws (${w("count", "count")} of ${w("total", "count")}).`,
  },
  "cycle-against-tank": {
    "as-allowed": (w) =>
      `Cycles are no shorter (${w("shortest", "time", 2)}) than a sound tank of this size allows (${w("expected", "time", 2)}).`,
    shorter: (w) =>
      `Cycles of ${w("shortest", "time", 2)} are far shorter than a sound tank of this size allows (${w("expected", "time", 2)}).`,
  },
  "switching-band": {
    narrow: (w) => `The pump stops and starts within ${w("band", "pressureDifference", 2)}: a narrow band.`,
    usual: (w) => `Between stop and start the pressure falls ${w("band", "pressureDifference", 2)}, as usual.`,
    wide: (w) => `Between stop and start the pressure falls ${w("band", "pressureDifference", 2)}: a wide band.`,
  },
  ...TANK_SENTENCES,
  "levels-walk": {
    stay: () => "The pressures at which the pump starts, holds and stops stay where they are.",
    walk: (w) =>
      `The pressures at which the pump starts, holds and stops all walk together, by ${w("change", "pressureDifference", 2)}: what was set does not, so the reading does.`,
  },
  "at-the-top": {
    turns: (w) => `At the top, ${w("top", "gaugePressure")}, the pump stops, and the pressure comes down to where it starts.`,
    "runs-on": (w) =>
      `The pressure goes from ${w("top", "gaugePressure")} down with a draw and back again, from anywhere: the pump runs on there and never comes to its stop.`,
  },
  oscillation: {
    none: () => "The pressure does not oscillate.",
    small: (w) =>
      `The pressure oscillates a little (${w("peakToPeak", "pressureDifference", 2)}, limit ${w("limit", "pressureDifference", 2)}).`,
    large: (w) =>
      `The pressure oscillates, mostly by ${w("peakToPeak", "pressureDifference", 2)} every ${w("period", "time", 2)}; the limit is ${w("limit", "pressureDifference", 2)}.`,
  },
  "oscillation-driver": {
    loop: () => "The pump brings the swing of the oscillation, not the draw: the control drives it.",
    demand: () => "Flow leads and pressure moves against it: the draw drives the oscillation.",
    unclear: () => "Who drives the oscillation stays open.",
  },
  "swing-in-runs": {
    within: () => "The pressure swings within runs already, long before the pump stops.",
    "from-stop-to-stop": () => "The pressure swings with the pump's starts and stops, not within its runs.",
  },
  "oscillation-period": {
    fast: (w) => `Its period, ${w("period", "time", 2)}, is short.`,
    middling: (w) => `Its period, ${w("period", "time", 2)}, is neither short nor long.`,
    slow: (w) => `Its period, ${w("period", "time", 2)}, is long.`,
  },
  "surge-period": {
    agrees: (w) =>
      `Its period, ${w("period", "time", 2)}, is that of the water between sensor and tank (${w("fast", "time", 2)} to ${w("slow", "time", 2)}).`,
    differs: (w) =>
      `Its period, ${w("period", "time", 2)}, is not that of the water between sensor and tank (${w("fast", "time", 2)} to ${w("slow", "time", 2)}).`,
  },
  "sensor-distance": {
    near: (w) => `The sensor stands ${w("distance", "length", 2)} from the tank, near enough.`,
    beyond: (w) => `The sensor stands ${w("distance", "length", 2)} from the tank, beyond ${w("limit", "length", 2)}.`,
    far: (w) => `The sensor stands ${w("distance", "length", 2)} from the tank, far beyond ${w("limit", "length", 2)}.`,
  },
  noise: {
    quiet: (w) => `The pressure is quiet (${w("noise", "pressureDifference", 2)} of scatter).`,
    noisy: (w) => `The pressure scatters by ${w("noise", "pressureDifference", 2)} from sample to sample.`,
  },
  "noise-with-flow": {
    steady: () => "The scatter does not grow with flow.",
    grows: () => "The scatter grows with the square of flow, as turbulence does.",
  },
  "sensor-lag": {
    prompt: (w) => `The sensor follows promptly (${w("lag", "time", 2)}).`,
    slow: (w) => `The sensor lags by ${w("lag", "time", 2)}.`,
  },
  "sensor-stuck": {
    no: () => "The reading never stands still while water moves.",
    stuck: (w) => `The reading stands still for ${w("stuck", "time", 2)} while flow or the pump changes.`,
    frozen: (w) => `The reading stands still for ${w("frozen", "time", 2)} in frost.`,
  },
  "sensor-scale": {
    "as-expected": () => "The recorded pressure is on the scale of the set pressure.",
    off: (w) => `The recorded pressure stands at ${w("ratio", "ratio", 3)} times what is held.`,
  },
  "sensor-pinned": {
    no: () => "The reading never sits at an end of its range.",
    yes: (w) => `The reading sits at an end of its range for ${w("pinned", "time", 2)}.`,
  },
  "held-pressure": {
    "at-set": (w) => `On average the pressure is held at ${w("setPressure", "gaugePressure")}.`,
    below: (w) =>
      `On average the pressure is off its set pressure of ${w("setPressure", "gaugePressure")} by ${w("error", "pressureDifference", 2)}.`,
    above: (w) =>
      `On average the pressure stands ${w("error", "pressureDifference", 2)} above its set pressure of ${w("setPressure", "gaugePressure")}.`,
  },
  drift: {
    within: (w) => `At steady flow the pressure keeps within ${w("limit", "pressureDifference", 2)}.`,
    over: (w) =>
      `At steady flow the pressure drifts by up to ${w("largest", "pressureDifference", 2)}; the limit is ${w("limit", "pressureDifference", 2)}.`,
  },
  droop: {
    little: (w) => `From little to most flow the pressure falls only ${w("fall", "pressureDifference", 2)}.`,
    steep: (w) => `From little flow to ${w("flow", "flow", 2)} the pressure falls ${w("fall", "pressureDifference", 2)}.`,
  },
  overshoot: {
    little: (w) => `The pressure rises to ${w("highest", "gaugePressure")} at most.`,
    some: (w) => `The pressure rises to ${w("highest", "gaugePressure")}, above its set ${w("setPressure", "gaugePressure")}.`,
    large: (w) => `The pressure rises to ${w("highest", "gaugePressure")}, far above its set ${w("setPressure", "gaugePressure")}.`,
  },
  dips: {
    shallow: (w) => `The worst dip after a draw began is ${w("depth", "pressureDifference", 2)}.`,
    deep: (w) => `After a draw began the pressure dipped ${w("depth", "pressureDifference", 2)}, and was soon back.`,
    "deep-and-slow": (w, n) =>
      `After a draw began the pressure dipped ${w("depth", "pressureDifference", 2)} and was ${
        typeof n.recovery === "number" ? `back only after ${w("recovery", "time", 2)}` : "not back while it was recorded"
      }.`,
  },
  "quiet-times": {
    some: () => "There are times in which nothing is drawn.",
    none: () => "Water goes somewhere all the time, and the least of it is always the same.",
  },
  "start-gaps": {
    apart: (w) => `The pump's starts lie apart: ${w("share", "fraction", 2)} follow the one before within ${w("within", "time", 2)}.`,
    "some-close": (w) => `Of the pump's starts ${w("share", "fraction", 2)} follow the one before within ${w("within", "time", 2)}.`,
    close: (w) =>
      `Most of the pump's starts come close: ${w("share", "fraction", 2)} follow the one before within ${w("within", "time", 2)}.`,
  },
  "start-rhythm": {
    irregular: () => "The pump starts without a rhythm.",
    regular: (w) =>
      `The pump starts in a rhythm: ${w("share", "fraction", 2)} of the starts follow each other after about ${w("gap", "time", 2)}.`,
  },
  "leak-down": {
    none: () => "With the pump off and nothing drawn the pressure holds.",
    passing: () => "With the pump off and nothing drawn the pressure falls, but not in every rest, or ever less: as gas that cools.",
    present: (w, n) =>
      "flow" in n
        ? `With the pump off and nothing ${"unmetered" in n ? "seen to be " : ""}drawn about ${w("flow", "flow", 2)} is lost.`
        : "unmetered" in n
          ? "With the pump off the pressure falls alike in every rest. Without a meter nobody knows that nothing is drawn; draws differ from rest to rest."
          : "With the pump off and nothing drawn the pressure falls.",
  },
  "leak-side": {
    system: () => "The meter sees the loss: it is on the system's side.",
    back: () => "The meter does not see the loss: back through the check valve, or before the meter.",
    unknown: () => "On which side the loss is stays open.",
  },
  "night-flow": {
    none: () => "At night there are hours without flow.",
    present: (w) => `Even in the quietest hours of the night ${w("night", "flow", 2)} flows.`,
  },
  prime: {
    held: () => "The pump never lost its water while it ran.",
    lost: (w) => `Pressure and flow collapsed ${w("times", "count")} times while the pump ran.`,
  },
  overdraw: {
    none: () => "The pump never ran at full speed below its pressure.",
    present: (w) => `For ${w("total", "time", 2)} in all the pump ran at full speed and the pressure stayed low.`,
  },
  "flow-when-short": {
    none: () => "While the pressure is short the running pump gives next to no water.",
    some: (w) => `While the pressure is short the pump gives ${w("flow", "flow", 2)}, well under what it is made for.`,
    all: (w) => `While the pressure is short ${w("flow", "flow", 2)} flows: as much as the pump is made for, or more.`,
  },
  shutoff: {
    full: (w) => `At full speed and little flow the pump reaches ${w("shutoff", "gaugePressure")}, as it should.`,
    weak: (w) =>
      `At full speed and little flow the pump reaches only ${w("shutoff", "gaugePressure")}; ${w("expected", "gaugePressure")} is expected.`,
  },
  "answer-to-draw": {
    "keeps-up": () => "Where a draw goes on, the pressure is soon back.",
    late: (w) => `The pressure stays low for ${w("late", "time", 2)} of long draws although the drive has speed to spare.`,
    "at-its-end": (w) => `The pressure stays low for ${w("ended", "time", 2)} of long draws with the pump at its end.`,
  },
  "sunk-pressure": {
    held: () => "While the pump runs the pressure never sinks for long.",
    low: (w) => `While the pump runs the pressure sinks to ${w("lowest", "gaugePressure")} for half a minute.`,
    gone: (w) => `While the pump runs the pressure falls to ${w("lowest", "gaugePressure")} for half a minute: hardly any is left.`,
    nought: (w) =>
      `The pressure falls to ${w("lowest", "gaugePressure")} for half a minute or longer: no draw takes so much of it from a pump that has its water.`,
  },
  "loop-pace": {
    prompt: () => "An error of the pressure is soon mended.",
    unhurried: (w) => `Half of an error of the pressure is left for about ${w("half", "time", 2)}.`,
    slow: (w) => `Half of an error of the pressure is still left after ${w("half", "time", 2)}: the loop is slow.`,
  },
  "rise-pace": {
    sudden: (w) => `After a low the pressure is halfway up again in only ${w("half", "time", 2)}: little gas gives way.`,
    prompt: (w) => `After a low the pressure is halfway up again in ${w("half", "time", 2)}, as it should be.`,
    late: (w) => `After a low the pressure is halfway up again in ${w("half", "time", 2)}: it is read late, or raised late.`,
    slow: (w) =>
      `After a low the pressure is halfway up again only after ${w("half", "time", 2)}: as long as a pump takes that can hardly keep up.`,
  },
  bends: {
    sharp: (w) => `The pressure bends within ${w("time", "time", 2)} where something changes.`,
    soft: (w) => `The pressure takes ${w("time", "time", 2)} to bend where something changes.`,
    rounded: (w) => `The pressure takes ${w("time", "time", 2)} to bend where something changes: rounded, as behind a choked port.`,
  },
  "low-times": {
    brief: (w) => `The pressure is never under ${w("under", "gaugePressure")} for long: the pump starts and brings it back.`,
    minutes: (w) =>
      `The pressure is under ${w("under", "gaugePressure")} for up to ${w("longest", "time", 2)}, where the pump must long have started.`,
    long: (w) =>
      `The pressure is under ${w("under", "gaugePressure")} for ${w("longest", "time", 2)} without a break: the pump does not bring it back.`,
    mostly: (w) => `The pressure is under ${w("under", "gaugePressure")} for ${w("share", "fraction", 2)} of the time.`,
  },
  "usual-pressure": {
    below: (w) => `Half of the time the pressure is under ${w("usual", "gaugePressure")}, below the band of its control.`,
    "in-band": (w) => `The usual pressure, ${w("usual", "gaugePressure")}, lies in the band of its control.`,
    above: (w) => `Half of the time the pressure is over ${w("usual", "gaugePressure")}, above the band of its control.`,
  },
  roughness: {
    alike: () => "The pressure scatters no more in a run than at rest.",
    rougher: (w) =>
      `The pressure scatters by ${w("run", "pressureDifference", 2)} while the pump runs and by ${w("rest", "pressureDifference", 2)} at rest.`,
  },
  "usual-fall": {
    sudden: (w) => `Before a start the pressure mostly falls (in ${w("time", "time", 2)}) as if there were next to no tank.`,
    quick: (w) => `Before a start the pressure mostly falls faster (in ${w("time", "time", 2)}) than a sound tank lets it.`,
    usual: () => "Before a start the pressure mostly falls as a usual draw makes it in a sound tank.",
  },
  "jump-from-still": {
    none: () => "The reading never stood and then jumped.",
    seen: (w) =>
      `The reading stood for ${w("stood", "time", 2)} and was ${w("size", "pressureDifference", 2)} away in the next sample, more than the water ever moves it.`,
  },
  "draw-rhythm": {
    irregular: () => "Draws follow each other without a rhythm.",
    regular: (w) => `What is drawn comes in a rhythm: the same again every ${w("gap", "time", 2)}.`,
  },
};

/** What an answer says, in the reader's units. */
export function sayObservation(id: ObservationId, level: Level, numbers: Numbers, units: UnitChoice): string {
  const write: Write = (name, shown, significant) => {
    const value = numbers[name];
    return formatQuantity(typeof value === "number" ? value : Number.NaN, shown, units, significant ?? 3);
  };
  const say = SENTENCES[id][level];
  if (say === undefined) throw new RangeError(`sayObservation: ${id} has no answer "${level}"`);
  return say(write, numbers);
}

/** How much a reason weighs, in words. 1 makes a cause 2.7 times as likely, 2 about 7 times. */
export function sayWeight(weight: number): "a hint" | "clear" | "strong" | "very strong" {
  const size = Math.abs(weight);
  return size < 0.5 ? "a hint" : size < 1.2 ? "clear" : size < 2 ? "strong" : "very strong";
}

/** A reason for or against a cause, with its weight: "The sensor lags by 12 s. (strong)". */
export const sayReason = (reason: Reason, units: UnitChoice): string =>
  `${sayObservation(reason.id, reason.level, reason.numbers, units)} (${sayWeight(reason.weight)})`;
