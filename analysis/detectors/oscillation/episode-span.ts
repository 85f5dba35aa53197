import { median, quantile } from "../../numerics/order-statistics";
import type { EvenStretch } from "../../segments/even-stretch";
import { frequencyOffset, turnedSum } from "./block-phases";
import { meanAround } from "./steadiness";
import type { Candidate } from "./window-search";

/** Windows of one stretch that show one and the same wave. */
export type Group = {
  readonly from: number;
  readonly to: number;
  readonly best: Candidate;
  /** Mean over the windows: the best one's alone is low by selection. Pa^2 s. */
  readonly noiseDensity: number;
};

/** Periods this near (ratio) are one wave: a window of eight waves tells no finer. */
const SAME_PERIOD = 1.13;
/** How near to a whole number the ratio of two periods must be for one to be a part of the other. */
const HARMONIC = 1.06;
const LEAST_WAVES = 5;

/** Candidates put together by time and period, strongest first; what is a harmonic or a part of a stronger wave is dropped. */
export function groupCandidates(candidates: readonly Candidate[]): Group[] {
  const open = [...candidates].sort((a, b) => a.logChance - b.logChance);
  const groups: Group[] = [];
  while (open.length > 0) {
    const seed = open[0];
    const same = open.filter((c) => samePeriod(c.period, seed.period)).sort((a, b) => a.from - b.from);
    const span = reachOf(seed, same);
    const within = same.filter((c) => overlaps(c, span));
    const noiseDensity = within.reduce((sum, c) => sum + c.noiseDensity, 0) / within.length;
    groups.push({ ...span, best: seed, noiseDensity });
    const rest = open.filter((c) => !(overlaps(c, span) && belongsTo(c.period, seed.period)));
    open.splice(0, open.length, ...rest);
  }
  return groups;
}

const samePeriod = (a: number, b: number): boolean => a / b < SAME_PERIOD && b / a < SAME_PERIOD;
const overlaps = (c: Candidate, span: { from: number; to: number }): boolean => c.from < span.to && c.to > span.from;

/** The same wave, one of its harmonics up to the fifth, or a multiple of it. */
function belongsTo(period: number, of: number): boolean {
  const ratio = period > of ? period / of : of / period;
  const order = Math.round(ratio);
  const near = order === 1 ? SAME_PERIOD : HARMONIC;
  return order <= 5 && ratio / order < near && order / ratio < near;
}

/** How far windows of the same period hang together with the seed; `same` in order of their beginning. Sweeps to and fro until nothing joins. */
function reachOf(seed: Candidate, same: readonly Candidate[]): { from: number; to: number } {
  let { from, to } = seed;
  for (let before = -1; before !== to - from; ) {
    before = to - from;
    for (const c of same) if (c.from <= to && c.to > to) to = c.to;
    for (let i = same.length - 1; i >= 0; i--) if (same[i].to >= from && same[i].from < from) from = same[i].from;
  }
  return { from, to };
}

/** Where a wave was, s. `unsure`: time at its open ends that noise may have added or taken; none where the stretch itself begins or ends. */
export type EpisodeSpan = { readonly from: number; readonly to: number; readonly unsure: number };

/**
 * Where a wave begins and ends: wave by wave its part in phase with its neighbours, less one half, is summed, and the stretch with the
 * greatest sum is the likeliest (known amplitude in white noise). A break of several waves ends an episode; what is left begins another.
 * @returns spans in s, each at least five waves long
 */
export function episodeSpans(stretch: EvenStretch, group: Group): EpisodeSpan[] {
  const { period } = group.best;
  const margin = Math.max(8 * period, 0.1 * (group.to - group.from));
  const first = Math.max(0, Math.floor((group.from - margin - stretch.from) / stretch.step));
  const end = Math.min(stretch.values.length, Math.ceil((group.to + margin - stretch.from) / stretch.step) + 1);
  const waves = demodulate(stretch.values.subarray(first, end), period / stretch.step);
  const start = stretch.from + first * stretch.step;
  const { scores, perWave } = scoresWithin(waves, group, start);
  const drop = Math.max(2.5, 6 / perWave);
  return risingStretches(scores, drop)
    .filter(({ from, to }) => to - from >= LEAST_WAVES)
    .map((span) => onOnePhase(waves, span, 1 / perWave, drop))
    .filter(({ from, to }) => to - from >= LEAST_WAVES)
    .map(({ from, to }) => {
      const atStart = first === 0 && from < 2;
      const atEnd = end === stretch.values.length && waves.re.length - to < 2;
      return {
        from: atStart ? stretch.from : start + from * period,
        to: atEnd ? stretch.to : Math.min(stretch.to, start + to * period),
        unsure: ((atStart ? 0 : 1) + (atEnd ? 0 : 1)) * period * (0.5 + 1.5 / perWave),
      };
    });
}

type Waves = { readonly re: Float64Array; readonly im: Float64Array };

/** Turning step by step gathers rounding; every so many steps the angle is taken anew. */
const RESYNC = 512;

/** Complex size of each wave at the given period (samples), slow part removed; shape [whole waves]. */
function demodulate(values: EvenStretch["values"], period: number): Waves {
  const n = values.length;
  const slow = meanAround(values, n, period);
  const count = Math.max(1, Math.floor(n / period));
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  const turn = (2 * Math.PI) / period;
  const turnC = Math.cos(turn);
  const turnS = Math.sin(turn);
  let c = 1;
  let s = 0;
  for (let i = 0; i < n; i++) {
    const wave = Math.floor(i / period);
    if (wave >= count) break;
    if (i % RESYNC === 0) {
      c = Math.cos(turn * i);
      s = Math.sin(turn * i);
    }
    const y = ((values[i] - slow(i)) * 2) / period;
    re[wave] += y * c;
    im[wave] -= y * s;
    const turned = c * turnC - s * turnS;
    s = s * turnC + c * turnS;
    c = turned;
  }
  return { re, im };
}

/** Mean of the neighbours within half the width, itself left out, so that noise does not agree with itself. Shape [two waves or more]. */
function neighbourMean(values: Float64Array, width: number): Float64Array {
  const n = values.length;
  const half = Math.max(1, Math.round(width / 2));
  const sums = new Float64Array(n + 1);
  for (let j = 0; j < n; j++) sums[j + 1] = sums[j] + values[j];
  return values.map((v, j) => {
    const from = Math.max(0, j - half);
    const end = Math.min(n, j + half + 1);
    return (sums[end] - sums[from] - v) / (end - from - 1);
  });
}

/** From this many times the window's amplitude on, in means of so many waves, the wave is there in a part of the window only. */
const IN_PARTS = 1.4;
const PART = 8;

/**
 * Each wave's part in phase with its neighbours, less one half, and the power of the tone over the noise in one wave. A window longer than the wave lasts
 * thins it out: where a quarter of its waves stand well over its amplitude, it is those that tell how plain one wave is.
 */
function scoresWithin(waves: Waves, { best }: Group, start: number): { readonly scores: Float64Array; readonly perWave: number } {
  const inBest = (j: number) => start + (j + 0.5) * best.period >= best.from && start + (j + 0.5) * best.period <= best.to;
  const smoothing = (perWave: number) => Math.max(3, Math.min(best.cycles / 2, Math.ceil(14 / perWave)));
  const thin = best.ratio / best.cycles;
  const whole = agreementOf(waves, smoothing(thin));
  const near = smoothing(thin) > PART ? agreementOf(waves, PART) : whole;
  const high = quantile(
    near.sizes.filter((_, j) => inBest(j)),
    0.75,
  );
  const usual = median(whole.sizes.filter((_, j) => inBest(j)));
  if (!(high > IN_PARTS * best.amplitude)) return { scores: whole.parts.map((part) => scoreOf(part, usual)), perWave: thin };
  const perWave = thin * (high / best.amplitude) ** 2;
  const { parts } = agreementOf(waves, smoothing(perWave));
  return { scores: parts.map((part) => scoreOf(part, high)), perWave };
}

const scoreOf = (part: number, amplitude: number): number =>
  Math.min(1.5, Math.max(-1.5, part / Math.max(amplitude, Number.MIN_VALUE))) - 0.5;

/** Size of the mean of each wave's neighbours, and the wave's own part in phase with it. */
function agreementOf(waves: Waves, smoothing: number): { readonly sizes: Float64Array; readonly parts: Float64Array } {
  const re = neighbourMean(waves.re, smoothing);
  const im = neighbourMean(waves.im, smoothing);
  const sizes = re.map((r, j) => Math.hypot(r, im[j]));
  const parts = waves.re.map((r, j) => (r * re[j] + waves.im[j] * im[j]) / Math.max(sizes[j], Number.MIN_VALUE));
  return { sizes, parts };
}

/** Part of the power that must keep one phase before that phase decides on the ends. */
const COHERENT = 0.7;

/**
 * The span again, now with one phase and frequency for all of it: beyond the ends noise agrees with its neighbours now and then, but not with
 * the whole. A wave that wanders keeps its first span.
 * @param noise power of the noise in one wave over the tone's
 */
function onOnePhase(waves: Waves, span: { from: number; to: number }, noise: number, drop: number): { from: number; to: number } {
  const re = waves.re.subarray(span.from, span.to);
  const im = waves.im.subarray(span.from, span.to);
  const n = re.length;
  const turn = 2 * Math.PI * frequencyOffset({ re, im, length: 1 });
  const [a, b] = turnedSum(re, im, turn).map((v) => v / n);
  const size = a * a + b * b;
  const power = re.reduce((sum, r, j) => sum + r * r + im[j] * im[j], 0) / n;
  if (size < COHERENT * (power - size * noise)) return span;
  const scores = waves.re.map((r, j) => {
    const c = Math.cos(turn * (j - span.from));
    const s = Math.sin(turn * (j - span.from));
    const part = ((r * c + waves.im[j] * s) * a + (waves.im[j] * c - r * s) * b) / size;
    return Math.min(1.5, Math.max(-1.5, part)) - 0.5;
  });
  const shared = (x: { from: number; to: number }) => Math.min(x.to, span.to) - Math.max(x.from, span.from);
  return risingStretches(scores, drop).reduce((best, x) => (shared(x) > shared(best) ? x : best), { from: span.from, to: span.from });
}

/** Disjoint stretches of greatest sum, each ended where the sum has fallen by `drop` from its top; indexes, `to` exclusive. */
function risingStretches(scores: Float64Array, drop: number): { from: number; to: number }[] {
  const found: { from: number; to: number }[] = [];
  let from = 0;
  let sum = 0;
  let top = 0;
  let topAt = 0;
  const close = (next: number): void => {
    if (top > 0) found.push({ from, to: topAt + 1 });
    from = next;
    sum = 0;
    top = 0;
  };
  for (let j = 0; j < scores.length; j++) {
    sum += scores[j];
    if (sum > top) {
      top = sum;
      topAt = j;
    }
    if (sum <= 0 || sum < top - drop) close(j + 1);
  }
  close(scores.length);
  return found;
}
