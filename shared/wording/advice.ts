import type { Advice, AdviceId, ExpectId, Said, TrustId } from "../findings/advice";
import { formatQuantity, formatRange } from "../units/format-quantity";
import type { UnitChoice } from "../units/unit-choice";
import { sayAmount } from "./amount";
import { sayCause } from "./cause";
import { sayEffect } from "./effect";
import { sayObservation } from "./reason";
import { withSmallInitial } from "./small-initial";

/** What to do, and what it costs to do it for nothing. */
type Words = { readonly does: string; readonly ifWrong: string };

const ADVICE: Readonly<Record<AdviceId, Words>> = {
  "stop-over-marked-pressure": {
    does: "Before anything else: the pressure is or would be above the working pressure marked on the tank. Such a tank can burst. Stop the pump, find out why, and change nothing that raises pressure until it stays below.",
    ifWrong: "A stop for nothing. If the mark was entered wrongly, correct it.",
  },
  "check-precharge": {
    does: "With the pump locked off and the water side drained, read the precharge; then press the air valve for a moment and see whether water comes.",
    ifWrong: "Half an hour without water for the customer.",
  },
  "raise-precharge": {
    does: "With the water side still drained, raise the precharge, then fill. Read it again next time: it may leak air.",
    ifWrong: "Charged too high, the tank is empty before the pump starts, and the pressure falls away.",
  },
  "lower-precharge": {
    does: "With the water side still drained, let air out until the precharge stands in its band, then fill again.",
    ifWrong: "A charge below the band makes the tank stiff and the cycles short.",
  },
  "larger-tank": {
    does: "Bring a larger tank, or a second one to stand beside the first, charged before it is fitted.",
    ifWrong: "A tank that was not needed: harmless, but it costs money and room. Read the precharge first.",
  },
  "replace-tank": {
    does: "If water comes from the air valve, bring a new tank of the right size and charge it before it is fitted.",
    ifWrong: "A sound tank thrown away, if it had only lost its air. Press the air valve first.",
  },
  "move-sensor": {
    does: "Move the sensor into the tank's own straight run, within 10 ft of it, away from elbows and fittings, connector up, where it cannot freeze.",
    ifWrong: "The work of a new tapping; the oscillation stays if the gain was the cause. Halve the gain for an hour first.",
  },
  "calm-sensor-place": {
    does: "Move the sensor to a calm place: a straight run, away from elbows, fittings and the pump's outlet, connector up.",
    ifWrong: "The work of a new tapping; the scatter stays if it is electrical.",
  },
  "clear-sensor-port": { does: "Take the sensor off, clear its port and line, and vent them.", ifWrong: "A short stop of the system." },
  "protect-sensor-from-frost": {
    does: "Thaw the sensor and its line gently, never with a flame, and insulate or heat them; bring a spare in case it stays stuck.",
    ifWrong: "A spare that was not needed.",
  },
  "check-sensor-scaling": {
    does: "Compare kind of signal and range, in the drive and in the logger, with what is printed on the sensor, and hold a gauge beside it. Correct what differs before you judge anything else: all pressures are off by the same ratio.",
    ifWrong: "Changing a right range makes the drive hold a wrong pressure. Watch a gauge while you do it.",
  },
  "lower-loop-gain": {
    does: "Write down the gain, lower it in one step, and log an hour of the same use.",
    ifWrong: "Dips get deeper; a slow swing gets worse. Put the old value back.",
  },
  "raise-loop-gain": {
    does: "Write down the gain, raise it in one step, watch the pressure through a draw, and log.",
    ifWrong: "The loop may start to swing fast. Put the old value back.",
  },
  "lengthen-sleep-delay": {
    does: "Write down the sleep delay and the restart pressure; lengthen the delay, or lower the restart pressure a little, and count the starts of a day.",
    ifWrong: "The pump runs a little longer at low flow, and warms its water: not longer than its instructions allow.",
  },
  "find-leak": {
    does: "With all taps shut, walk the system: relief valve, toilets, irrigation, fittings. Shut branches one after another and watch whether the pressure holds.",
    ifWrong: "An hour of walking.",
  },
  "check-check-valve": {
    does: "With the pump off, shut the valve behind the tank. If the pressure still falls, water goes back: look at the check valve and its seat.",
    ifWrong: "A short stop of the system.",
  },
  "restore-prime": {
    does: "Look for where air comes in: water level, foot valve, suction joints, shaft seal. Then fill and vent the pump, never run it dry.",
    ifWrong: "An hour of looking; a pump that runs dry is lost.",
  },
  "check-pump-direction": {
    does: "See whether the pump turns the way its arrow points (three phases: two in the wrong order turn it backwards). If it does, look for wear and a choked suction.",
    ifWrong: "A quarter of an hour.",
  },
  "check-pump-size": {
    does: "Compare what is drawn at once with what the pump gives at set pressure; find the largest consumer and see whether it can draw at another time.",
    ifWrong: "A larger pump bought for a leak or for one open valve.",
  },
  "look-for-periodic-demand": {
    does: "Find what opens and shuts in the rhythm of the log, and leave the drive's settings alone until then.",
    ifWrong: "An hour of walking.",
  },
  "log-more": {
    does: "No cause stands out. Do the check named under the causes, or log again with what is missing, before anything is changed.",
    ifWrong: "A second visit.",
  },
  "nothing-to-change": {
    does: "Leave the settings as they are, and keep this log to compare with.",
    ifWrong: "What the log cannot show stays unseen.",
  },
};

type Numbers = (name: string) => number;
const range = (numbers: Numbers, units: UnitChoice, low = "ratioLow", high = "ratioHigh") =>
  formatRange(numbers(low), numbers(high), "ratio", units);

const TRUST: Readonly<Record<TrustId, (numbers: Numbers, units: UnitChoice) => string>> = {
  "volumes-agree": () => "Practice and physics agree.",
  "volume-drive": (n, u) =>
    `Practice asks for ${formatQuantity(n("practice"), "volume", u, 2)}, physics for ${formatQuantity(n("physics"), "volume", u, 2)}. Physics reckons with a pump that stops and starts at full flow; a drive slows down instead. Trust practice where the pump seldom stops, physics where the log shows it stopping and starting all the time.`,
  "volume-switch": () => "A pressure switch starts and stops the pump at full flow: trust physics. The rule of 20 % is for drives only.",
  "volume-practice-only": () => "Without pump flow, set and restart pressure physics cannot be reckoned: enter them for a second opinion.",
  "precharge-higher-setting": () => "The pressure drifts, so take the higher setting: practice and physics agree.",
  "precharge-lower-setting": () =>
    "The pressure does not drift, so the lower setting will do: it stores more water and is only a little stiffer.",
  "precharge-drift-unknown": () =>
    "Whether the pressure drifts at steady flow is not known: start at the lower setting, and raise it if it drifts.",
  "precharge-switch": () => "With a pressure switch the charge follows cut-in, not the set pressure.",
  "distance-period-decides": () =>
    "10 ft is practice; physics knows no such edge. The shorter the pipe, the shorter the swing of its water: what counts is that it becomes short against what the loop can follow.",
  "gain-physics": () => "Halving is the easy step; if it still swings, go on to the lower figure, which leaves a margin.",
};

const EXPECT: Readonly<Record<ExpectId, (numbers: Numbers, units: UnitChoice) => string>> = {
  "cycle-longer": (n, u) => `At the same charge cycles last ${range(n, u)} times as long, and starts per hour fall as much (T = 4 V / Q).`,
  "softer-but-less-water": (n, u) => `Cycles last ${range(n, u)} times as long, and the tank holds less water.`,
  "stiffer-but-more-water": (n, u) =>
    `The gas falls to ${range(n, u)} of what it is: the tank holds more water and gives it longer, and is stiffer as long as it is not empty.`,
  "period-shrinks": (n, u) => `The swing of the water between them becomes ${formatRange(n("low"), n("high"), "ratio", u)} times as fast.`,
  "leak-stops": () => "Starts without a draw end.",
};

const numbersOf =
  (said: Said<string>): Numbers =>
  (name) => {
    const value = said.numbers[name];
    return typeof value === "number" ? value : Number.NaN;
  };

/** A step as sentences: what to do, amounts by practice and by physics, which to trust, why, what to expect and what it costs to be wrong. */
export type AdviceWords = {
  readonly does: string;
  readonly amounts: readonly string[];
  readonly trust: string | null;
  readonly because: string;
  readonly expect: string | null;
  readonly ifWrong: string;
};

/** @param notMet names of the acceptance sheet's checks that are not met: where nothing is to be changed, they are said */
export function sayAdvice(advice: Advice, units: UnitChoice, notMet: readonly string[] = []): AdviceWords {
  const { trust, id } = advice;
  return {
    does: id === "nothing-to-change" && notMet.length > 0 ? sayNotMetYet(notMet) : ADVICE[id].does,
    amounts: advice.amounts.map((a) => sayAmount(a, units)),
    trust: trust === null ? null : TRUST[trust.id](numbersOf(trust), units),
    because: sayBecause(advice, units),
    expect: sayExpected(advice, units),
    ifWrong: ADVICE[id].ifWrong,
  };
}

const sayNotMetYet = (notMet: readonly string[]): string =>
  `The log shows no cause that a setting would answer, and yet not everything is met on the acceptance sheet: ${notMet.map(withSmallInitial).join("; ")}. Look into that before any setting is changed, and keep this log to compare with.`;

/** By closed forms, then by the fitted model where that was run. */
function sayExpected({ expect, effect }: Advice, units: UnitChoice): string | null {
  const said = [
    ...(expect === null ? [] : [EXPECT[expect.id](numbersOf(expect), units)]),
    ...(effect === null ? [] : [sayEffect(effect, units)]),
  ];
  return said.length === 0 ? null : said.join(" ");
}

/** The cause that a step answers with its confidence, and what most speaks for it. */
function sayBecause({ because: { cause, confidence, reason } }: Advice, units: UnitChoice): string {
  if (cause === null || confidence === null) return "A tank must stay below its marked working pressure.";
  const share = formatQuantity(confidence, "fraction", units, 2);
  const shown = reason === null ? "" : ` ${sayObservation(reason.id, reason.level, reason.numbers, units)}`;
  return `“${sayCause(cause).name}” stands at ${share}.${shown}`;
}
