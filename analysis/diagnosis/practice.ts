import { PASCAL_PER_PSI } from "../../shared/units/pressure";

/** Total tank volume as a share of what the pump gives in a minute, with a drive. Common practice, no source. */
export const PRACTICE_SHARE_OF_MINUTE = 0.2;
/** How far the precharge stands below set pressure, Pa. Common practice, no source. */
export const PRECHARGE_BELOW_SET = { low: 15 * PASCAL_PER_PSI, high: 20 * PASCAL_PER_PSI } as const;
/** Farthest a sensor should stand from the tank, m: 10 ft. Common practice, no source. */
export const SENSOR_WITHIN = 10 * 0.3048;
/** Least share of running time within the band. Common practice, no source. */
export const LEAST_WITHIN_BAND = 0.95;
