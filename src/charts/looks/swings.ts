import { autocorrelation } from "../../../analysis/numerics/autocorrelation";
import { quantile } from "../../../analysis/numerics/order-statistics";
import { welch } from "../../../analysis/numerics/spectrum";
import type { OscillationEpisode } from "../../../shared/findings/finding";
import type { Span } from "../../../shared/findings/span";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../../shared/record/sampling";
import { LOOK_WORDS } from "../../../shared/wording/chart";
import { valueBefore } from "./cycle-overlay";
import { type Look, nothing } from "./look";

const MOST_VALUES = 65_536;
const PERIOD_TICKS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 3600, 7200];
/** Periods shown with the autocorrelation. */
const PERIODS = 6;
/** Octaves on either side of a bin over which the background is taken. */
const BACKGROUND_REACH = 1.6;

/** The episode that a place belongs to, else the longest. */
export function episodeAt(episodes: readonly OscillationEpisode[], place: Span | null): OscillationEpisode | null {
  const chosen = episodes.find(({ from, to }) => place !== null && from <= place.to && to >= place.from);
  return chosen ?? episodes.reduce<OscillationEpisode | null>((a, b) => (a === null || b.to - b.from > a.to - a.from ? b : a), null);
}

/** Power of the pressure's swings by period over an episode, with the background of their neighbours (Welch, Hann windows). */
export function periodogram(channel: Channel | null, episode: OscillationEpisode | null): Look {
  const even = channel === null || episode === null ? null : evenValues(channel, episode);
  if (even === null || episode === null) return nothing("periodogram");
  const segment = 2 ** Math.floor(Math.log2(Math.max(16, Math.min(even.values.length, 4096))));
  if (even.values.length < segment) return nothing("periodogram");
  const { step, power } = welch(even.values, { rate: 1 / even.step, segment, detrend: "linear", scaling: "spectrum" });
  const bins = Array.from({ length: power.length - 2 }, (_, i) => power.length - 1 - i);
  const peak = bins.reduce(
    (best, k) => (Math.abs(k * step - 1 / episode.period.value) < Math.abs(best * step - 1 / episode.period.value) ? k : best),
    bins[0],
  );
  const strongest = [peak - 1, peak, peak + 1].reduce((best, k) => (power[k] > power[best] ? k : best), peak);
  const background = bins.map((k) => backgroundAt(power, k, strongest));
  return {
    look: "periodogram",
    state: "shown",
    x: { title: LOOK_WORDS.period, shown: "time", low: 2 * even.step, high: 1 / (2 * step), ticks: PERIOD_TICKS },
    y: { title: LOOK_WORDS.swing, shown: "pressureDifference", low: null, high: null, decades: 4 },
    lines: [
      { label: LOOK_WORDS.pressureLine, hue: "pressure", dash: [], draw: "line" },
      { label: LOOK_WORDS.background, hue: "ink-soft", dash: [4, 4], draw: "line" },
    ],
    shaded: [],
    marks: [{ kind: "line", axis: "x", at: episode.period.value, name: LOOK_WORDS.periodFound, dash: [2, 2] }],
    xs: Float64Array.from(bins, (k) => 1 / (k * step)),
    ys: [bins.map((k) => Math.sqrt(2 * power[k])), background.map((level) => Math.sqrt(2 * level))],
    numbers: {
      period: { value: episode.period.value, shown: "time" },
      above: { value: Math.sqrt(power[strongest] / backgroundAt(power, strongest, strongest)), shown: "ratio" },
    },
  };
}

/** Median of the neighbours on either side; the peak and the bins it leaks into are left out. */
function backgroundAt(power: Float64Array, k: number, peak: number): number {
  const low = Math.max(1, Math.floor(k / BACKGROUND_REACH) - 2);
  const high = Math.min(power.length - 1, Math.ceil(k * BACKGROUND_REACH) + 2);
  const around: number[] = [];
  for (let j = low; j <= high; j++) if (Math.abs(j - peak) > 3) around.push(power[j]);
  return around.length === 0 ? power[k] : quantile(around, 0.5);
}

/** Agreement of the pressure with itself over the next periods. */
export function agreement(channel: Channel | null, episode: OscillationEpisode | null): Look {
  const even = channel === null || episode === null ? null : evenValues(channel, episode);
  if (even === null || episode === null) return nothing("autocorrelation");
  const { value: period } = episode.period;
  const lags = Math.min(even.values.length - 1, Math.ceil((PERIODS * period) / even.step));
  const r = autocorrelation(detrended(even.values, Math.round(period / even.step)), lags);
  if (lags < 4 || Number.isNaN(r[0])) return nothing("autocorrelation");
  const atPeriod = r[Math.min(lags, Math.round(period / even.step))];
  return {
    look: "autocorrelation",
    state: "shown",
    x: { title: LOOK_WORDS.laterBy, shown: "time", low: 0, high: lags * even.step },
    y: { title: LOOK_WORDS.agreement, shown: "ratio", low: -1, high: 1 },
    lines: [{ label: LOOK_WORDS.agreementLine, hue: "pressure", dash: [], draw: "line" }],
    shaded: [],
    marks: [
      { kind: "line", axis: "y", at: 0, name: "", dash: [1, 3] },
      { kind: "line", axis: "x", at: period, name: LOOK_WORDS.onePeriod, dash: [2, 2] },
    ],
    xs: Float64Array.from(r, (_, k) => k * even.step),
    ys: [Array.from(r)],
    numbers: { period: { value: period, shown: "time" }, agreement: { value: atPeriod, shown: "ratio" } },
  };
}

/** Less its mean over one period: what is slower than the swing says nothing about it. */
function detrended(values: Float64Array, width: number): Float64Array {
  const half = Math.max(1, Math.floor(width / 2));
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i++) sums[i + 1] = sums[i] + values[i];
  return values.map((value, i) => {
    const from = Math.max(0, i - half);
    const to = Math.min(values.length, i + half + 1);
    return value - (sums[to] - sums[from]) / (to - from);
  });
}

/** Values of an episode at even steps; missing ones take the last before. Null with fewer than 16. */
function evenValues(channel: Channel, { from, to }: Span): { readonly step: number; readonly values: Float64Array } | null {
  const first = indexAtOrAfter(channel.sampling, from);
  const end = Math.min(sampleCount(channel.sampling), indexAtOrAfter(channel.sampling, to));
  if (end - first < 16) return null;
  const step = (timeAt(channel.sampling, end - 1) - timeAt(channel.sampling, first)) / (end - 1 - first);
  const n = Math.min(MOST_VALUES, end - first);
  const begin = timeAt(channel.sampling, first);
  const values = Float64Array.from({ length: n }, (_, i) => valueBefore(channel, begin + i * step + step * 0.01));
  for (let i = 0; i < n; i++) if (Number.isNaN(values[i])) values[i] = i === 0 ? 0 : values[i - 1];
  return { step, values };
}
