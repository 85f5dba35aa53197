import { expect, test } from "vitest";
import { findRhythm } from "../../../analysis/import/find-on-change";
import { seededRandom } from "../../../analysis/numerics/random";

/** Closed forms, written and then logged by the very rule of either logger: common practice of change-of-value reporting, no source. */
type Row = { readonly t: number; readonly values: readonly number[] };
type Signal = (t: number) => readonly number[];

const onChange = (signal: Signal, bands: readonly number[], scans: number, beat = Number.POSITIVE_INFINITY): Row[] => {
  const rows: Row[] = [{ t: 0, values: signal(0) }];
  for (let t = 1; t < scans; t++) {
    const values = signal(t);
    const last = rows[rows.length - 1];
    if (t - last.t >= beat || values.some((value, k) => Math.abs(value - last.values[k]) >= bands[k])) rows.push({ t, values });
  }
  return rows;
};

/** Sampled, with gaps of any length from two scans on. */
const withGaps = (signal: Signal, scans: number, share: number, longest: number, seed = 5): Row[] => {
  const random = seededRandom(seed);
  const rows: Row[] = [];
  for (let t = 0; t < scans; t++) {
    rows.push({ t, values: signal(t) });
    if (random.next() < share) t += 1 + Math.floor(random.next() * longest);
  }
  return rows;
};

const rhythmOf = (rows: readonly Row[], jitter = 0) => {
  const random = seededRandom(9);
  return findRhythm(
    Float64Array.from(rows, ({ t }) => t + jitter * random.next()),
    rows[0].values.map((_, k) => Float64Array.from(rows, ({ values }) => values[k])),
  );
};

const round = (value: number, digit: number) => Math.round(value / digit) * digit;
const noisy = (digit: number, of: number) => {
  const random = seededRandom(3);
  return (value: number) => round(value + of * random.normal(), digit);
};
/** Two swings that never fall in with each other. */
const wave = (t: number) => 50 + 10 * Math.sin((2 * Math.PI * t) / 400) + 3 * Math.sin(t / 17);
/** Still for some time, then moving: a draw every so often, of a length of its own. */
const draws = (t: number) => {
  const [draw, at] = [Math.floor(t / 120), t % 120];
  const rest = 12 + ((draw * 37) % 41);
  return at < rest ? 0 : 5 + Math.sin(at / 3) + Math.sin(at / 7);
};

test("on change of a signal that is seldom still, its rows mostly one scan apart", () => {
  expect(rhythmOf(onChange((t) => [round(wave(t), 0.01)], [0.04], 20_000)).kind).toBe("on-change");
  const random = noisy(0.01, 0.03);
  expect(rhythmOf(onChange((t) => [random(wave(t))], [0.04], 20_000)).kind).toBe("on-change");
});

test("on change by any of three channels, of which each moves a little when another is written", () => {
  const [pressure, current] = [noisy(0.01, 0.06), noisy(0.1, 0.05)];
  const signal: Signal = (t) => [pressure(50 - 2 * draws(t)), round(draws(t), 0.1), current(draws(t) > 0 ? 8 : 0)];
  expect(rhythmOf(onChange(signal, [0.2, 0.6, 1], 40_000)).kind).toBe("on-change");
  expect(rhythmOf(onChange(signal, [0.2, 0.6, 1], 40_000, 300)).kind).toBe("on-change");
});

test("a sampled signal with gaps of many lengths is sampled, whatever it does", () => {
  const walk: number[] = [50];
  const random = seededRandom(1);
  for (let t = 1; t < 20_000; t++) walk.push(walk[t - 1] + 0.1 * random.normal());
  const [calm, rough] = [noisy(0.01, 0.05), noisy(0.1, 0.05)];
  const signals: Signal[] = [
    (t) => [wave(t)], // a pure wave: few changes are small
    (t) => [round(wave(t), 0.1)],
    () => [calm(50)], // a steady signal with fine noise: every row differs
    () => [rough(50)], // and with rounding as coarse as the noise
    (t) => [calm(wave(t)), rough(5)],
    (t) => [walk[t]],
    (t) => [round(t % 180 < 60 ? 40 + (t % 180) / 3 : 60 - ((t % 180) - 60) / 6, 0.01)], // ramps of two slopes: no change is small
    (t) => [calm(50 - 2 * draws(t)), round(draws(t), 0.1)],
    (t) => [t % 2 === 0 ? 40 : 60], // hunting from row to row
  ];
  for (const [which, signal] of signals.entries()) {
    for (const share of [0.02, 0.1, 0.25]) {
      for (const longest of [6, 40]) {
        expect(rhythmOf(withGaps(signal, 20_000, share, longest)).kind, `${which} ${share} ${longest}`).toBe("sampled");
        if (share < 0.2)
          expect(rhythmOf(withGaps(signal, 20_000, share, longest), 0.2).kind, `${which} ${share} ${longest} jitter`).toBe("sampled");
      }
    }
  }
});

test("a steady signal with noise beside many silences says that it is not plain", () => {
  const calm = noisy(0.01, 0.05);
  expect(rhythmOf(withGaps(() => [calm(50)], 20_000, 0.1, 40))).toEqual({ kind: "sampled", unsure: true });
  expect(rhythmOf(withGaps((t) => [calm(wave(t))], 20_000, 0.1, 40))).toEqual({ kind: "sampled" });
  expect(rhythmOf(withGaps(() => [calm(50)], 20_000, 0.0005, 40))).toEqual({ kind: "sampled" }); // few
});
