import type { CautionId } from "../../shared/findings/advice";
import type { Change, ChangeId } from "../../shared/findings/what-if";
import { CAUTIONS } from "./cautions";

/** What making a change on site can do to people, by the kind of change. */
const BY_CHANGE: Readonly<Record<ChangeId, readonly CautionId[]>> = {
  precharge: CAUTIONS.airCharge,
  "tank-volume": CAUTIONS.tankWork,
  "sensor-distance": CAUTIONS.sensorWork,
  "pipe-bore": CAUTIONS.pipeWork,
  gain: CAUTIONS.settings,
  "integral-time": CAUTIONS.settings,
  "sleep-delay": CAUTIONS.settings,
  "set-pressure": CAUTIONS.settings,
  "restart-pressure": CAUTIONS.settings,
  leak: CAUTIONS.pipeWork,
};

/** The cautions of all changes, each once, in the order of the work. */
export const cautionsOfChanges = (changes: readonly Change[]): readonly CautionId[] => [
  ...new Set(changes.flatMap(({ id }) => BY_CHANGE[id])),
];
