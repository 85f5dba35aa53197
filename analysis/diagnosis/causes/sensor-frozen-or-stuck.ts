import type { CauseTable } from "./cause-table";

/**
 * The same value again and again while flow or the pump changes; near 0 C, ice in the port.
 */
export const sensorFrozenOrStuck: CauseTable = {
  id: "sensor-frozen-or-stuck",
  prior: 1,
  weights: {
    "sensor-stuck": { no: -2.5, stuck: 3, frozen: 3 },
    "sensor-pinned": { yes: 1 },
    dips: { deep: 0.5, "deep-and-slow": 0.5 },
    overshoot: { large: 0.3 },
  },
};
