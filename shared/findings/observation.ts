/**
 * What a log and the site facts show, put as a question with a few answers. Causes are weighed by these answers and by nothing else.
 * Every answer is a ratio, a presence or a level against a limit, so that it means the same on a small site and on a large one.
 * A question that could not be asked has no answer; that is not the same as the harmless answer.
 */
export const OBSERVATIONS = {
  /** A drive that holds a pressure, or a switch between two pressures: a site with a switch has no loop to set. */
  "pump-kind": ["drive", "switch"],
  /** Most starts in an hour against what is allowed. */
  starts: ["few", "many", "very-many"],
  /** Share of complete runs under the short-cycle limit. */
  runs: ["long", "some-short", "mostly-short", "never-stops"],
  /** Share of starts that came while nothing was drawn. */
  "starts-without-draw": ["rare", "often"],
  /** Share of starts that came in small draws. */
  "starts-in-small-draws": ["rare", "often"],
  /** Recorded cycle against the shortest that the tank of the site facts would allow. */
  "cycle-against-tank": ["as-allowed", "shorter"],
  /** Pressure between start and stop of the pump against the set pressure. */
  "switching-band": ["narrow", "usual", "wide"],
  /** Tank volume of the site facts against the pump's capacity. */
  "tank-by-facts": ["ample", "small", "tiny"],
  /** Precharge of the site facts against set pressure. */
  "precharge-by-facts": ["low", "in-band", "high"],
  /** Gas constant that the log shows against the one of the site facts. */
  "gas-constant": ["collapsed", "reduced", "lessened", "as-expected", "raised"],
  /** Gas constant that the log shows against what good practice would give this pump. */
  "gas-constant-by-practice": ["tiny", "small", "enough"],
  /** Pressure where the tank runs empty against set pressure. */
  "empties-at": ["far-below", "in-band", "near-set"],
  oscillation: ["none", "small", "large"],
  /** Who drives the oscillation; only where there is one. */
  "oscillation-driver": ["loop", "demand", "unclear"],
  /** Whether it goes on within runs, or only with the stops; only where there is one. */
  "swing-in-runs": ["within", "from-stop-to-stop"],
  /** Its period; only where there is one. */
  "oscillation-period": ["fast", "middling", "slow"],
  /** Its period against that of the water column between sensor and tank; only where both are known. */
  "surge-period": ["agrees", "differs"],
  /** Distance between sensor and tank, given or worked out. */
  "sensor-distance": ["near", "beyond", "far"],
  noise: ["quiet", "noisy"],
  "noise-with-flow": ["steady", "grows"],
  "sensor-lag": ["prompt", "slow"],
  "sensor-stuck": ["no", "stuck", "frozen"],
  "sensor-scale": ["as-expected", "off"],
  "sensor-pinned": ["no", "yes"],
  /** Mean pressure against set pressure while the pump ran. */
  "held-pressure": ["at-set", "below", "above"],
  drift: ["within", "over"],
  /** Fall of pressure from little to most flow against set pressure. */
  droop: ["little", "steep"],
  /** Highest pressure that was there for more than a moment, against set pressure. */
  overshoot: ["little", "some", "large"],
  /** Worst dip after a draw began. */
  dips: ["shallow", "deep", "deep-and-slow"],
  /** Whether there are times in which nothing is drawn. */
  "quiet-times": ["some", "none"],
  /** Share of starts that follow the one before within a minute and a half. */
  "start-gaps": ["apart", "some-close", "close"],
  /** How evenly the pump's starts follow each other. */
  "start-rhythm": ["irregular", "regular"],
  /** Loss with the pump off and nothing drawn: in every rest and going on, or passing. */
  "leak-down": ["none", "passing", "present"],
  /** Side of the loss; only where there is one. */
  "leak-side": ["system", "back", "unknown"],
  /** Least flow of the night against the highest flow. */
  "night-flow": ["none", "present"],
  prime: ["held", "lost"],
  /** Full speed with pressure below the band. */
  overdraw: ["none", "present"],
  /** How much water the pump gives while the pressure is short, against its rating; only where it was short for long. */
  "flow-when-short": ["none", "some", "all"],
  /** Pressure at full speed and little flow against what it should be. */
  shutoff: ["full", "weak"],
  /** Pressure short of its set pressure for long in a run: with speed to spare, or at the pump's end. */
  "answer-to-draw": ["keeps-up", "late", "at-its-end"],
  /** How long the loop takes to mend half of an error. */
  "loop-pace": ["prompt", "unhurried", "slow"],
  /** How long the pressure takes from a low to the middle of a large rise. */
  "rise-pace": ["sudden", "prompt", "late", "slow"],
  /** How long the pressure takes to bend where a draw or the pump changes. */
  bends: ["sharp", "soft", "rounded"],
  /** Lowest pressure held for half a minute of a run against what is to be held. */
  "sunk-pressure": ["held", "low", "gone", "nought"],
  /** How long the pressure stood under what makes the pump start. */
  "low-times": ["brief", "minutes", "long", "mostly"],
  /** The pressure of most of the time against the band of the control. */
  "usual-pressure": ["below", "in-band", "above"],
  /** Scatter of the pressure while the pump runs against that at rest. */
  roughness: ["alike", "rougher"],
  /** How fast the pressure usually falls before a start, against what a usual draw would make in a sound tank. */
  "usual-fall": ["sudden", "quick", "usual"],
  /** Where the falls before the starts turn into a drop, the same pressure again and again, against set pressure. */
  "fall-breaks": ["nowhere", "below", "near-set"],
  /** Whether a pump on a switch stops where the pressure is highest, or runs on there. */
  "at-the-top": ["turns", "runs-on"],
  /** Whether the pressures of start, stop and what is held all walk the same way through the record. */
  "levels-walk": ["stay", "walk"],
  /** Whether the reading stood for minutes and then was elsewhere from one sample to the next. */
  "jump-from-still": ["none", "seen"],
  /** How evenly draws follow each other. */
  "draw-rhythm": ["irregular", "regular"],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type ObservationId = keyof typeof OBSERVATIONS;
export type LevelOf<K extends ObservationId> = (typeof OBSERVATIONS)[K][number];
export type Level = LevelOf<ObservationId>;
export const OBSERVATION_IDS = Object.keys(OBSERVATIONS) as ObservationId[];

/** Numbers of a sentence, SI, by name. */
export type Numbers = Readonly<Record<string, number | string>>;

/** One answer with the numbers it rests on; `level` null where the log and the facts cannot tell. */
export type Observation<K extends ObservationId = ObservationId> = {
  readonly id: K;
  readonly level: LevelOf<K> | null;
  readonly numbers: Numbers;
};
