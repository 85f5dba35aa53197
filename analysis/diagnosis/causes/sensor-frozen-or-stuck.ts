import type { CauseTable } from "./cause-table";

/**
 * The same value again and again while flow or the pump changes; near 0 C, ice in the port.
 */
export const sensorFrozenOrStuck: CauseTable = {
  id: "sensor-frozen-or-stuck",
  prior: 1,
  weights: {
    "sensor-stuck": { no: -2.4, stuck: 2.5, frozen: 1.5 },
    dips: { deep: 0.2, "deep-and-slow": 0.2 },
  },
};
