import { attempt, type OnFailure, raise } from "../../shared/findings/failure";
import { type Level, OBSERVATION_IDS, type Observation, type ObservationId } from "../../shared/findings/observation";
import { answerLooks } from "./observations/answer";
import { atTheTopLooks } from "./observations/at-the-top";
import { bendLooks } from "./observations/bends";
import { cyclingLooks } from "./observations/cycling";
import { drawRhythmLooks } from "./observations/draw-rhythm";
import { fallBreakLooks } from "./observations/fall-breaks";
import { jumpFromStillLooks } from "./observations/jump-from-still";
import { levelsWalkLooks } from "./observations/levels-walk";
import { loopPaceLooks } from "./observations/loop-pace";
import { lowTimesLooks } from "./observations/low-times";
import { oscillationLooks } from "./observations/oscillation";
import { overshootLooks } from "./observations/overshoot";
import { pressureAndDrawLooks } from "./observations/pressure-and-draw";
import { pumpLooks } from "./observations/pump";
import { risePaceLooks } from "./observations/rise-pace";
import { roughnessLooks } from "./observations/roughness";
import { sensorLooks } from "./observations/sensor";
import { type Looks, observe, type Sight } from "./observations/sight";
import { startGapLooks } from "./observations/start-gaps";
import { tankLooks } from "./observations/tank";
import { usualFallLooks } from "./observations/usual-fall";

/** How each question is answered. */
export const LOOKS: Looks = {
  ...cyclingLooks,
  ...tankLooks,
  ...oscillationLooks,
  ...sensorLooks,
  ...pressureAndDrawLooks,
  ...pumpLooks,
  ...answerLooks,
  ...bendLooks,
  ...loopPaceLooks,
  ...overshootLooks,
  ...startGapLooks,
  ...risePaceLooks,
  ...lowTimesLooks,
  ...jumpFromStillLooks,
  ...roughnessLooks,
  ...usualFallLooks,
  ...drawRhythmLooks,
  ...fallBreakLooks,
  ...levelsWalkLooks,
  ...atTheTopLooks,
};

/** What an answer makes idle to ask. */
const IDLE: readonly { readonly id: ObservationId; readonly level: Level; readonly asked: readonly ObservationId[] }[] = [
  // what holds the pressure of one hour against that of another tells of the walk
  {
    id: "levels-walk",
    level: "walk",
    asked: [
      "leak-down",
      "leak-side",
      "held-pressure",
      "answer-to-draw",
      "loop-pace",
      "sunk-pressure",
      "low-times",
      "usual-pressure",
      "overshoot",
      "dips",
      "fall-breaks",
    ],
  },
  // a pump at its end that stays over its cut-in is no better for it
  { id: "at-the-top", level: "runs-on", asked: ["sunk-pressure", "low-times"] },
];

const notAsked = (id: ObservationId): Observation => ({ id, level: null, numbers: {} });

/** Every observation, known or missing (level null), in the order of OBSERVATIONS; one that fails is missing. */
export function observeAll(sight: Sight, onFailure: OnFailure = raise): Observation[] {
  const one = <K extends ObservationId>(id: K): Observation =>
    attempt<Observation>("observation", id, onFailure, () => observe(id, LOOKS[id], sight), notAsked(id));
  const all = OBSERVATION_IDS.map((id) => one(id));
  const idle = new Set(IDLE.filter((i) => all.some((o) => o.id === i.id && o.level === i.level)).flatMap((i) => i.asked));
  return all.map((seen) => (idle.has(seen.id) ? notAsked(seen.id) : seen));
}
