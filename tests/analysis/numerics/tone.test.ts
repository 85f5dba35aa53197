import { describe, expect, test } from "vitest";
import { autocorrelation } from "../../../analysis/numerics/autocorrelation";
import { lombScargle, whiteNoiseAlarm } from "../../../analysis/numerics/lomb-scargle";
import { leastSquares } from "../../../analysis/numerics/regression";
import { removeLine } from "../../../analysis/numerics/spectrum-parts";
import { fitTone, frequencyBound, type Tone } from "../../../analysis/numerics/tone-fit";
import { crossingRegularity, decayRatio } from "../../../analysis/numerics/zero-crossings";
import { goldenCase, goldenInputs } from "../../builders/reference";

type ToneOutput = { f: number; period: number; amplitude: number; mean: number; residual_sd: number };
const { t, y } = goldenInputs.irregular;
const loop = Float64Array.from(goldenInputs.loop_sine.y);
removeLine(loop);
const index = Float64Array.from(loop, (_, i) => i);

function expectTone(tone: Tone | null, { output, within }: ReturnType<typeof goldenCase<ToneOutput>>) {
  expect(within(tone!.frequency, output.f)).toBe(true);
  expect(within(tone!.amplitude, output.amplitude)).toBe(true);
  expect(within(tone!.residualSd, output.residual_sd)).toBe(true);
}

describe("a tone", () => {
  test("on even samples is the one SciPy finds", () => {
    expectTone(fitTone(index, loop, 0.0487422532267, 0.002, "constant"), goldenCase("nls-tone"));
  });
  test("on uneven samples with a hole is the one SciPy finds", () => {
    expectTone(fitTone(t, y, 0.021, 0.0005, "constant"), goldenCase("lombscargle-refined"));
  });
  test("has the bound of theory", () => {
    const { output, within } = goldenCase<{ N: number; A: number; sigma: number; sd_f_closed: number }[]>("crb");
    for (const row of output) expect(within(frequencyBound(row.N, 1, row.A, row.sigma), row.sd_f_closed)).toBe(true);
  });
});

describe("the floating-mean periodogram", () => {
  const { output, within } = goldenCase<{ power: number[]; peak_power: number; fap_baluev: number }>("lombscargle-generalised");
  test("agrees with NumPy and astropy", () => {
    const power = lombScargle(
      t,
      y,
      Float64Array.from(output.power, (_, k) => 0.002 + 0.0005 * k),
    );
    for (const [k, want] of output.power.entries()) expect(within(power[k], want)).toBe(true);
    expect(within(whiteNoiseAlarm(output.peak_power, t, 0.2), output.fap_baluev)).toBe(true);
  });
  test("the false-alarm bound agrees with the printed example of a reference manual", () => {
    const times = Float64Array.from({ length: 100 }, (_, i) => i + 1);
    const table = goldenCase<[number, number, number][]>("baluev-table");
    for (const [z, highest, want] of table.output) expect(table.within(whiteNoiseAlarm(z, times, highest), want)).toBe(true);
  });
  test("finds the year in the carbon dioxide of Mauna Loa", () => {
    const { t_days, y: ppm } = goldenInputs.co2;
    const co2 = goldenCase<{ period: number; amplitude: number }>("co2");
    const rest = quadraticRest(t_days, ppm);
    const year = fitTone(t_days, rest, 1 / 365, 1 / 16000, "constant")!;
    expect(co2.within(1 / year.frequency, co2.output.period)).toBe(true);
    expect(co2.within(year.amplitude, co2.output.amplitude)).toBe(true);
  });
});

describe("regularity of an autocorrelation", () => {
  const r = autocorrelation(loop, 120);
  test("agrees with NumPy", () => {
    const { output, within } = goldenCase<{ period: number; r: number }>("acf-regularity");
    const regularity = crossingRegularity(r)!;
    expect(within(regularity.period, output.period)).toBe(true);
    expect(within(regularity.index, output.r)).toBe(true);
  });
  test("its decay ratio agrees with NumPy", () => {
    const { output, within } = goldenCase<{ R: number }>("acf-decay-ratio");
    expect(within(decayRatio(r)!, output.R)).toBe(true);
  });
  test("four crossings are too few to say", () => {
    expect(crossingRegularity([1, -1, 1, -1, 1])).toBeNull();
  });
});

function quadraticRest(x: readonly number[], v: readonly number[]): number[] {
  const scale = x[x.length - 1];
  const u = x.map((d) => d / scale);
  const fit = leastSquares([u.map(() => 1), u, u.map((d) => d * d)], v)!.coefficients;
  return v.map((p, i) => p - fit[0] - fit[1] * u[i] - fit[2] * u[i] ** 2);
}
