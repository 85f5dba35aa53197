import { quantiles } from "../numerics/order-statistics";
import type { Turn } from "./turning-points";

const BINS = 16; // along a lobe
/** Fewest samples of a half wave that has a shape. */
const LEAST_SAMPLES = 4;
const LEAST_LOBES = 3;
/** Where the apex of a triangle is tried, as a share of the half wave. */
const APEXES = Array.from({ length: 17 }, (_, i) => 0.1 + i * 0.05);

/**
 * Shape of the half waves above (or below) a level: MSE of a half-sine over the sum of that and the MSE of the best triangle, both fitted to the mean half
 * wave (half waves laid over each other from crossing to crossing, so that noise averages out). Near 1 corners, as a switch makes them; near 0 a smooth
 * wave, as a loop makes it. Null with fewer than three half waves of four samples.
 * He, Wang, Pottmann & Qin, Ind. Eng. Chem. Res. 46 (2007): above 0.6 triangle, below 0.4 sine. The free apex is ours: a pump fills faster than draws empty.
 */
export function lobeShape(values: ArrayLike<number>, turns: readonly Turn[], level: number, side: Turn["kind"]): number | null {
  const sums = new Float64Array(BINS);
  const counts = new Float64Array(BINS);
  let lobes = 0;
  for (let k = 1; k + 1 < turns.length; k++) {
    if (turns[k].kind !== side || turns[k - 1].kind === side || turns[k + 1].kind === side) continue;
    const from = crossing(values, turns[k].index, turns[k - 1].index, level);
    const to = crossing(values, turns[k].index, turns[k + 1].index, level);
    if (!(to - from >= LEAST_SAMPLES)) continue;
    for (let i = Math.ceil(from); i <= to; i++) {
      if (Number.isNaN(values[i])) continue;
      const bin = Math.min(BINS - 1, Math.floor(((i - from) / (to - from)) * BINS));
      sums[bin] += values[i] - level;
      counts[bin]++;
    }
    lobes++;
  }
  if (lobes < LEAST_LOBES) return null;
  const mean = Array.from(sums, (sum, i) => ({ u: (i + 0.5) / BINS, y: sum / counts[i] })).filter(({ y }) => Number.isFinite(y));
  const sine = misfit(mean, (u) => Math.sin(Math.PI * u));
  const triangle = APEXES.reduce(
    (least, apex) =>
      Math.min(
        least,
        misfit(mean, (u) => Math.min(u / apex, (1 - u) / (1 - apex))),
      ),
    Number.POSITIVE_INFINITY,
  );
  return sine + triangle === 0 ? null : sine / (sine + triangle);
}

/** Where the signal crosses the level on its way from a turn to its neighbour, in samples, between two of them. */
export function crossing(values: ArrayLike<number>, from: number, to: number, level: number): number {
  const step = Math.sign(to - from);
  const above = values[from] > level;
  let i = from;
  while (i !== to && values[i + step] > level === above) i += step;
  if (i === to) return to;
  return i + step * ((level - values[i]) / (values[i + step] - values[i]));
}

/** Mean square of what the best multiple of a shape leaves. */
function misfit(points: readonly { readonly u: number; readonly y: number }[], shape: (u: number) => number): number {
  let [xy, xx] = [0, 0];
  for (const { u, y } of points) {
    xy += shape(u) * y;
    xx += shape(u) ** 2;
  }
  return points.reduce((sum, { u, y }) => sum + (y - (xy / xx) * shape(u)) ** 2, 0) / points.length;
}

/** Whether most waves between lows are about as long as each other. */
export function keepsTime(turns: readonly Turn[]): boolean {
  const lows = turns.filter(({ kind }) => kind === "low");
  const waves = Float64Array.from({ length: Math.max(0, lows.length - 1) }, (_, i) => lows[i + 1].index - lows[i].index);
  if (waves.length === 0) return false;
  const [short, long] = quantiles(waves, [0.25, 0.75]);
  return long <= STEADY_RHYTHM * short;
}

const SMOOTH = 0.4; // misfit of a sine over that of sine and triangle together
/** Longest over shortest of the middle half of a wave's periods; starts and stops go by the draws, which come as they please. */
const STEADY_RHYTHM = 1.6;

/**
 * Whether the turns are those of a smooth wave: neither its crests nor its troughs have corners, and it keeps time. Saw-teeth of many lengths laid over each
 * other have their corners at many places and would look smooth.
 */
export function isSmoothWave(values: ArrayLike<number>, turns: readonly Turn[], level: number): boolean {
  if (!keepsTime(turns)) return false;
  const [crest, trough] = [lobeShape(values, turns, level, "high"), lobeShape(values, turns, level, "low")];
  return crest !== null && trough !== null && crest < SMOOTH && trough < SMOOTH;
}
