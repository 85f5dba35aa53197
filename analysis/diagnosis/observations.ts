import { attempt, type OnFailure, raise } from "../../shared/findings/failure";
import { OBSERVATION_IDS, type Observation, type ObservationId } from "../../shared/findings/observation";
import { answerLooks } from "./observations/answer";
import { bendLooks } from "./observations/bends";
import { cyclingLooks } from "./observations/cycling";
import { drawRhythmLooks } from "./observations/draw-rhythm";
import { fallBreakLooks } from "./observations/fall-breaks";
import { jumpFromStillLooks } from "./observations/jump-from-still";
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
};

/** Every observation, known or missing (level null), in the order of OBSERVATIONS; one that fails is missing. */
export function observeAll(sight: Sight, onFailure: OnFailure = raise): Observation[] {
  const one = <K extends ObservationId>(id: K): Observation =>
    attempt<Observation>("observation", id, onFailure, () => observe(id, LOOKS[id], sight), { id, level: null, numbers: {} });
  return OBSERVATION_IDS.map((id) => one(id));
}
