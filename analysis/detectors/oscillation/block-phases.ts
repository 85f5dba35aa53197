import type { WaveBlocks } from "./waves";

/** More blocks than this are added up in groups. */
export const MOST_BLOCKS = 1000;

type Blocks = Pick<WaveBlocks, "re" | "im" | "length">;

/** Hz to add: the greatest coherent sum of the blocks near the mean phase step of neighbours. */
export function frequencyOffset(blocks: Blocks): number {
  const centre = meanPhaseStep(blocks) / (2 * Math.PI * blocks.length);
  const { re, im, length } = fewer(blocks, centre);
  const reach = Math.min(0.5 / length, 3 / (re.length * length));
  const sizeAt = (offset: number) => coherentSum(re, im, 2 * Math.PI * offset * length);
  let best = 0;
  let most = -1;
  for (let k = -24; k <= 24; k++) {
    const offset = (k / 24) * reach;
    const size = sizeAt(offset);
    if (size > most) {
      most = size;
      best = offset;
    }
  }
  for (let step = reach / 24; step > reach * 1e-4; step /= 4) best = parabolaTop(sizeAt, best, step);
  return centre + best;
}

function meanPhaseStep({ re, im }: Blocks): number {
  let stepRe = 0;
  let stepIm = 0;
  for (let j = 0; j + 1 < re.length; j++) {
    const a = re[j + 1] * re[j] + im[j + 1] * im[j];
    const b = im[j + 1] * re[j] - re[j + 1] * im[j];
    if (a - a !== 0) continue;
    stepRe += a;
    stepIm += b;
  }
  return Math.atan2(stepIm, stepRe);
}

/** Blocks turned back by an offset and, where there are very many, added up in groups: what is left of the offset hardly turns within one. */
function fewer({ re, im, length }: Blocks, offset: number): Blocks {
  const group = Math.max(1, Math.ceil(re.length / MOST_BLOCKS));
  const count = Math.ceil(re.length / group);
  const groupRe = new Float64Array(count);
  const groupIm = new Float64Array(count);
  for (let j = 0; j < re.length; j++) {
    if (re[j] - re[j] !== 0) continue;
    const angle = 2 * Math.PI * offset * length * j;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    const g = Math.floor(j / group);
    groupRe[g] += re[j] * c + im[j] * s;
    groupIm[g] += im[j] * c - re[j] * s;
  }
  return { re: groupRe, im: groupIm, length: length * group };
}

/** Top of the parabola through three points, at most a step away. */
function parabolaTop(of: (x: number) => number, x: number, step: number): number {
  const [a, b, c] = [of(x - step), of(x), of(x + step)];
  const bend = a - 2 * b + c;
  return bend < 0 ? x + step * Math.min(1, Math.max(-1, (0.5 * (a - c)) / bend)) : x;
}

/** Sum of the blocks, each turned back by its number times `turn`; missing ones left out. */
export function turnedSum(re: Float64Array, im: Float64Array, turn: number): [number, number] {
  let a = 0;
  let b = 0;
  for (let j = 0; j < re.length; j++) {
    if (re[j] - re[j] !== 0) continue;
    const c = Math.cos(turn * j);
    const s = Math.sin(turn * j);
    a += re[j] * c + im[j] * s;
    b += im[j] * c - re[j] * s;
  }
  return [a, b];
}

export function coherentSum(re: Float64Array, im: Float64Array, turn: number): number {
  const [a, b] = turnedSum(re, im, turn);
  return a * a + b * b;
}

/** Mean phase step of neighbouring blocks from a to b, rad. */
export function phaseStep({ re, im }: WaveBlocks, from: number, to: number): number {
  let a = 0;
  let b = 0;
  for (let j = from; j < to; j++) {
    const x = re[j + 1] * re[j] + im[j + 1] * im[j];
    const y = im[j + 1] * re[j] - re[j + 1] * im[j];
    if (x - x !== 0) continue;
    a += x;
    b += y;
  }
  return Math.atan2(b, a);
}
