import type { CauseId, CheckId, CheckOutcome, ResultId, ToSeparate } from "../findings/cause";
import type { ObservationId } from "../findings/observation";
import { withSmallInitial } from "./small-initial";

/** A cause in the engineer's words: its name, and what it means. */
export type CauseWords = { readonly name: string; readonly meaning: string };

const CAUSES: Readonly<Record<CauseId, CauseWords>> = {
  "tank-too-small": {
    name: "Tank too small",
    meaning: "The tank is sound but gives too little water for this pump, so it starts too often.",
  },
  "precharge-low": {
    name: "Precharge too low",
    meaning: "Air is missing: the tank is stiff and gives little water.",
  },
  "precharge-high": {
    name: "Precharge too high",
    meaning: "The tank is empty before the pump starts, so the pressure falls away.",
  },
  "tank-waterlogged": {
    name: "Tank water-logged",
    meaning: "The tank is full of water: a torn diaphragm or next to no air left. It cushions nothing.",
  },
  "sensor-far-from-tank": {
    name: "Sensor too far from the tank",
    meaning: "The pipe between them lets the sensor see the pump before the tank has moved, and the control overshoots.",
  },
  "sensor-in-turbulence": {
    name: "Sensor in turbulence",
    meaning: "The sensor sits where the flow is rough, at a bend or an outlet, and reads the eddies.",
  },
  "sensor-port-plugged": { name: "Sensor port plugged", meaning: "A choked port or line makes the sensor late." },
  "sensor-frozen-or-stuck": { name: "Sensor frozen or stuck", meaning: "The reading stands still although the pressure cannot." },
  "sensor-scaling-wrong": {
    name: "Sensor scaling wrong",
    meaning: "Range or kind of signal is set wrongly, so every reading is off by a fixed ratio.",
  },
  "loop-too-aggressive": {
    name: "Control too hot",
    meaning: "The gain is too high for the delays in the loop: speed and pressure chase each other.",
  },
  "loop-too-slow": { name: "Control too slow", meaning: "The drive answers a draw late: pressure dips, drifts or swings slowly." },
  "leak-or-check-valve": {
    name: "Leak or check valve",
    meaning: "Water is lost with the pump off, out of the system or back through the check valve.",
  },
  "demand-is-periodic": { name: "Demand in a rhythm", meaning: "Something draws water at regular times, and the pressure only follows." },
  "sleep-settings-hunting": {
    name: "Sleep settings hunt",
    meaning: "In small draws the drive sleeps and wakes again: its delay is too short or its band too narrow.",
  },
  "loss-of-prime": { name: "Loss of prime", meaning: "Air in the suction: pressure and flow collapse while the pump runs on." },
  "pump-turning-backwards-or-weak": {
    name: "Pump turning backwards, or weak",
    meaning: "Little pressure and little flow at full speed: wrong direction, wear, or a choked suction.",
  },
  "undersized-pump-or-overdraw": {
    name: "More drawn than the pump gives",
    meaning: "The pump is at its end while more water is drawn than it can give at set pressure.",
  },
  healthy: { name: "Nothing wrong that shows", meaning: "All that this log can show is as it should be." },
};

export const sayCause = (id: CauseId): CauseWords => CAUSES[id];

const CHECKS: Readonly<Record<CheckId, string>> = {
  "read-precharge": "With the pump locked off and the tank drained to no pressure, read the precharge with a gauge you trust.",
  "press-air-valve": "With the pump locked off and water pressure relieved, press the tank's air valve for a moment: air or water?",
  "measure-sensor-distance": "Measure the pipe from the sensor to the tank, bends included.",
  "compare-second-gauge": "Hold a second gauge beside the sensor and watch both through a draw.",
  "shut-system-valve": "With the pump off, shut the valve behind the tank and watch whether the pressure still falls.",
  "open-sensor-port": "With the pump locked off and the line relieved, take the sensor off and look into its port.",
  "feel-for-frost": "Look for ice at the sensor and its line on a cold day.",
  "read-input-settings": "Compare the input's kind and range in the drive with what is printed on the sensor.",
  "halve-loop-gain": "Note the gain, halve it for an hour of use, and log.",
  "double-loop-gain": "Note the gain, double it for an hour of use while you watch, and log.",
  "lengthen-sleep-delay": "Note the sleep delay, lengthen it threefold for a day, and count the starts.",
  "check-direction": "Let a qualified person check the direction of rotation against the arrow on the pump.",
  "shut-in-test":
    "For less than a minute, run the pump at full speed against a nearly shut valve and read the pressure; keep below the tank's marked pressure.",
  "listen-for-air": "Listen and look for air at the pump and its suction while it runs.",
  "walk-the-consumers": "Walk the consumers: what opens and shuts at regular times?",
  "log-flow": "Log the flow as well.",
  "log-speed": "Log the drive's speed as well.",
  "log-faster": "Log again with at least four samples in the shortest period you expect.",
  "log-longer": "Log a whole day or longer.",
  "log-second-pressure": "Log a second pressure at the tank.",
  "log-temperature": "Log the temperature at the sensor as well.",
  "ask-set-pressure": "Enter the set pressure.",
  "ask-tank-volume": "Read the total volume off the tank and enter it.",
  "ask-precharge": "Enter the precharge as it was read.",
  "ask-pump-flow": "Enter the pump's rated flow.",
  "ask-pipe": "Enter the inside diameter of the pipe between sensor and tank.",
};
export const sayCheck = (id: CheckId): string => CHECKS[id];

const RESULTS: Readonly<Record<ResultId, string>> = {
  "charge-low": "a charge well below its band",
  "charge-right": "a charge within its band",
  "charge-high": "a charge above its band",
  "water-at-valve": "water at the air valve",
  "only-air": "only air",
  "distance-short": "a short pipe",
  "distance-long": "a long pipe",
  "gauges-agree": "both the same",
  "gauges-differ": "a fixed difference or ratio",
  "second-gauge-quicker": "the second gauge moving sooner",
  "pressure-holds": "a pressure that holds",
  "pressure-falls": "a pressure that falls",
  "port-clear": "a clear port",
  "port-choked": "a choked port",
  "ice-found": "ice",
  "no-ice": "no ice",
  "settings-match": "settings that match",
  "settings-differ": "settings that differ",
  "swing-smaller": "a smaller swing",
  "swing-same": "the same swing",
  "dips-smaller": "smaller dips",
  "dips-same": "the same dips",
  "starts-fewer": "far fewer starts",
  "starts-same": "as many starts",
  "direction-right": "the right direction",
  "direction-wrong": "the wrong direction",
  "head-full": "the full pressure",
  "head-weak": "too little pressure",
  "air-heard": "air",
  "no-air": "no air",
  "consumer-found": "a consumer with that rhythm",
  "no-consumer": "no such consumer",
};

/** What an open question may turn out to be: nouns that stand before "points to". */
const ANSWERS: { readonly [K in ObservationId]: Readonly<Record<string, string>> } = {
  "pump-kind": { drive: "a drive", switch: "a pressure switch" },
  starts: { few: "few starts", many: "too many starts", "very-many": "far too many starts" },
  runs: {
    long: "long runs",
    "some-short": "some short runs",
    "mostly-short": "mostly short runs",
    "never-stops": "a pump that never stops",
  },
  "starts-without-draw": { rare: "no starts without a draw", often: "starts without a draw" },
  "starts-in-small-draws": { rare: "starts in large draws", often: "starts in small draws" },
  "cycle-against-tank": { "as-allowed": "cycles as the tank allows", shorter: "cycles shorter than the tank allows" },
  "switching-band": { narrow: "a narrow switching band", usual: "a usual switching band", wide: "a wide switching band" },
  "tank-by-facts": { ample: "an ample tank", small: "a small tank", tiny: "a very small tank" },
  "precharge-by-facts": { low: "a low precharge", "in-band": "a precharge within its band", high: "a high precharge" },
  "gas-constant": {
    collapsed: "hardly any gas at work",
    reduced: "far less gas at work than there should be",
    lessened: "somewhat less gas at work than there should be",
    "as-expected": "as much gas as there should be",
    raised: "more gas than there should be",
  },
  "gas-constant-by-practice": { tiny: "next to no give", small: "too little give", enough: "enough give for the pump" },
  "empties-at": {
    "far-below": "a tank that empties far below set pressure",
    "in-band": "a tank that empties where it should",
    "near-set": "a tank that empties close to set pressure",
  },
  "fall-breaks": {
    nowhere: "falls that break nowhere",
    below: "falls that break far below set pressure",
    "near-set": "falls that all break close to set pressure",
  },
  "levels-walk": { stay: "levels that stay", walk: "start, stop and held level that walk together" },
  "at-the-top": { turns: "a pump that stops at the top", "runs-on": "a pump that runs on at the top" },
  oscillation: { none: "no oscillation", small: "a small oscillation", large: "a large oscillation" },
  "oscillation-driver": { loop: "control that drives it", demand: "demand that drives it", unclear: "no clear driver" },
  "swing-in-runs": { within: "a swing within the runs", "from-stop-to-stop": "a swing from stop to stop" },
  "oscillation-period": { fast: "a short period", middling: "a middling period", slow: "a long period" },
  "surge-period": { agrees: "the period of the water between sensor and tank", differs: "another period than that of the water between" },
  "sensor-distance": { near: "a short distance", beyond: "a longish distance", far: "a long distance" },
  noise: { quiet: "a quiet signal", noisy: "a noisy signal" },
  "noise-with-flow": { steady: "noise that does not grow with flow", grows: "noise that grows with flow" },
  "sensor-lag": { prompt: "a prompt sensor", slow: "a late sensor" },
  "sensor-stuck": { no: "a reading that moves", stuck: "a reading that stands still", frozen: "a reading that stands still in frost" },
  "sensor-scale": { "as-expected": "a scale as expected", off: "a scale that is off" },
  "sensor-pinned": { no: "a reading within its range", yes: "a reading at the end of its range" },
  "held-pressure": {
    "at-set": "a pressure held at its set value",
    below: "a pressure below its set value",
    above: "a pressure above its set value",
  },
  drift: { within: "little drift", over: "drift over the limit" },
  droop: { little: "little fall with flow", steep: "a steep fall with flow" },
  overshoot: { little: "little overshoot", some: "some overshoot", large: "a large overshoot" },
  dips: { shallow: "shallow dips", deep: "deep dips, soon over", "deep-and-slow": "deep dips, slow to recover" },
  "quiet-times": { some: "times without a draw", none: "a draw at all times" },
  "start-gaps": { apart: "starts that lie apart", "some-close": "some starts close together", close: "most starts close together" },
  "start-rhythm": { irregular: "starts without a rhythm", regular: "starts in a rhythm" },
  "leak-down": { none: "no loss at rest", passing: "a passing loss at rest", present: "a loss at rest" },
  "leak-side": { system: "a loss the meter sees", back: "a loss the meter does not see", unknown: "a loss of unknown side" },
  "night-flow": { none: "no flow at night", present: "flow all night" },
  prime: { held: "a pump that keeps its water", lost: "a pump that loses its water" },
  overdraw: { none: "no full speed at low pressure", present: "full speed at low pressure" },
  "flow-when-short": {
    none: "no flow while the pressure is short",
    some: "some flow while the pressure is short",
    all: "the pump's full flow while the pressure is short",
  },
  shutoff: { full: "the full pressure at little flow", weak: "too little pressure at little flow" },
  "answer-to-draw": {
    "keeps-up": "a pressure that soon comes back in a draw",
    late: "a low pressure with speed to spare",
    "at-its-end": "a low pressure with the pump at its end",
  },
  "sunk-pressure": {
    held: "a pressure that never sinks for long",
    low: "a pressure that sinks while the pump runs",
    gone: "hardly any pressure while the pump runs",
    nought: "next to no pressure for long",
  },
  "loop-pace": { prompt: "errors soon mended", unhurried: "errors mended without hurry", slow: "errors that stay long" },
  "rise-pace": {
    sudden: "rises of a moment",
    prompt: "rises as fast as they should be",
    late: "rises that come late",
    slow: "rises as slow as those of a pump at its end",
  },
  bends: { sharp: "sharp bends of the pressure", soft: "soft bends of the pressure", rounded: "rounded bends of the pressure" },
  "low-times": {
    brief: "a low pressure for moments only",
    minutes: "a low pressure for minutes",
    long: "a low pressure for long",
    mostly: "a low pressure most of the time",
  },
  "usual-pressure": {
    below: "a usual pressure below the band",
    "in-band": "a usual pressure in the band",
    above: "a usual pressure above the band",
  },
  roughness: { alike: "as much scatter at rest as in a run", rougher: "far more scatter in a run than at rest" },
  "usual-fall": {
    sudden: "falls before a start that leave next to no tank",
    quick: "falls before a start that are quick for a sound tank",
    usual: "falls before a start as in a sound tank",
  },
  "jump-from-still": { none: "no jump after a standstill", seen: "a jump of the reading after a standstill" },
  "draw-rhythm": { irregular: "no rhythm in the draws", regular: "a rhythm in the draws" },
};

const sayShown = (shows: CheckOutcome["shows"]) => (shows.kind === "result" ? RESULTS[shows.result] : ANSWERS[shows.id][shows.level]);

/** "a charge within its band or above its band": what all begin with is said once. */
function oneOf(shown: readonly string[]): string {
  const words = shown.map((one) => one.split(" "));
  const shared = words[0].findIndex((word, i) => words.some((other) => other[i] !== word));
  return shown.map((one, i) => (i === 0 || shared < 2 ? one : words[i].slice(shared).join(" "))).join(" or ");
}

/**
 * The check and what each outcome would mean: "Measure ... A short pipe points to “control too hot”; ...". Empty where there is none.
 * @param check how to do it; by default in full, with the caution that belongs to it
 */
export function sayToSeparate(toSeparate: ToSeparate | null, check = toSeparate === null ? "" : CHECKS[toSeparate.check]): string {
  if (toSeparate === null) return "";
  const pointers = [toSeparate.cause, toSeparate.rival].flatMap((cause) => {
    const shown = toSeparate.outcomes.filter((o) => o.pointsTo === cause).map((o) => sayShown(o.shows));
    return shown.length === 0 ? [] : [`${oneOf(shown)} points to “${withSmallInitial(CAUSES[cause].name)}”`];
  });
  const meaning = pointers.join("; ");
  return meaning === "" ? check : `${check} ${meaning.charAt(0).toUpperCase()}${meaning.slice(1)}.`;
}
