import { median } from "../../../analysis/numerics/order-statistics";
import type { LivingTank } from "../../../shared/findings/segment";
import { LOOK_WORDS, MARK_WORDS } from "../../../shared/wording/chart";
import { type Look, type LookMark, nothing } from "./look";

/**
 * 1/p (absolute) against drawn volume, with the line of slope 1/K that the analysis fitted and the knee where the tank empties.
 * Each stretch is moved along the volume so that all lie on one line: the water drawn before it began is not known.
 * @param atmosphere Pa absolute
 */
export function tankLine(tank: LivingTank | null, atmosphere: number): Look {
  const n = tank?.points.drawn.length ?? 0;
  if (tank === null || n < 5) return nothing("tank-line");
  const { drawn, inversePressure, window } = tank.points;
  const slope = 1 / tank.gasConstant.value;
  const lowest = inversePressure.reduce((a, b) => Math.min(a, b), Infinity);
  const offsets = offsetsOf(drawn, inversePressure, window, slope, lowest);
  const points = Array.from({ length: n }, (_, i) => ({ v: drawn[i] + (offsets.get(window[i]) ?? 0), y: inversePressure[i] })).sort(
    (a, b) => a.v - b.v,
  );
  const marks: LookMark[] =
    tank.emptiesAt === null
      ? []
      : [{ kind: "line", axis: "y", at: 1 / (tank.emptiesAt.value + atmosphere), name: MARK_WORDS.tankEmpties, dash: [2, 2] }];
  return {
    look: "tank-line",
    state: "shown",
    x: { title: LOOK_WORDS.waterGiven, shown: "volume", low: null, high: null },
    y: { title: LOOK_WORDS.inversePressure, shown: "inversePressure", low: null, high: null },
    lines: [
      { label: LOOK_WORDS.log, hue: "pressure", dash: [], draw: "points" },
      { label: LOOK_WORDS.gasLaw, hue: "ink", dash: [6, 3], draw: "line", width: 1.8 },
    ],
    shaded: [],
    marks,
    xs: Float64Array.from(points, ({ v }) => v),
    ys: [points.map(({ y }) => y), points.map(({ v }) => lowest + slope * v)],
    numbers: {
      points: { value: n, shown: "count" },
      ...(tank.emptiesAt === null ? {} : { empties: { value: tank.emptiesAt.value, shown: "gaugePressure" as const } }),
    },
  };
}

/** How far each stretch is moved along the volume, m3, so that its middle lies on the line. */
function offsetsOf(
  drawn: Float64Array,
  inverse: Float64Array,
  window: Uint16Array,
  slope: number,
  lowest: number,
): ReadonlyMap<number, number> {
  const misses = new Map<number, number[]>();
  window.forEach((id, i) => {
    const miss = (inverse[i] - lowest) / slope - drawn[i];
    const kept = misses.get(id);
    if (kept === undefined) misses.set(id, [miss]);
    else kept.push(miss);
  });
  return new Map([...misses].map(([id, values]) => [id, median(values)]));
}
