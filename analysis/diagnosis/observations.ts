import { OBSERVATION_IDS, type Observation, type ObservationId } from "../../shared/findings/observation";
import { cyclingLooks } from "./observations/cycling";
import { oscillationLooks } from "./observations/oscillation";
import { pressureAndDrawLooks } from "./observations/pressure-and-draw";
import { pumpLooks } from "./observations/pump";
import { sensorLooks } from "./observations/sensor";
import { type Looks, observe, type Sight } from "./observations/sight";
import { tankLooks } from "./observations/tank";

const LOOKS: Looks = { ...cyclingLooks, ...tankLooks, ...oscillationLooks, ...sensorLooks, ...pressureAndDrawLooks, ...pumpLooks };

/** Every observation, known or missing (level null), in the order of OBSERVATIONS. */
export function observeAll(sight: Sight): Observation[] {
  const one = <K extends ObservationId>(id: K): Observation => observe(id, LOOKS[id], sight);
  return OBSERVATION_IDS.map((id) => one(id));
}
