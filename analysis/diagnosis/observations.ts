import { attempt, type OnFailure, raise } from "../../shared/findings/failure";
import { OBSERVATION_IDS, type Observation, type ObservationId } from "../../shared/findings/observation";
import { answerLooks } from "./observations/answer";
import { bendLooks } from "./observations/bends";
import { cyclingLooks } from "./observations/cycling";
import { drawRhythmLooks } from "./observations/draw-rhythm";
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
import { showsSwitch } from "./observations/switch-in-log";
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
};

/** The facts, and the kind of the pump where only the log shows it. */
function withPumpKind(sight: Sight): Sight {
  const { pump, setPressure, restartPressure } = sight.site;
  if (pump !== null || setPressure !== null || restartPressure !== null || !showsSwitch(sight)) return sight;
  return { ...sight, site: { ...sight.site, pump: "fixed-speed" } };
}

/** Every observation, known or missing (level null), in the order of OBSERVATIONS; one that fails is missing. */
export function observeAll(seen: Sight, onFailure: OnFailure = raise): Observation[] {
  const sight = attempt("observation", "pump-kind", onFailure, () => withPumpKind(seen), seen);
  const one = <K extends ObservationId>(id: K): Observation =>
    attempt<Observation>("observation", id, onFailure, () => observe(id, LOOKS[id], sight), { id, level: null, numbers: {} });
  return OBSERVATION_IDS.map((id) => one(id));
}
