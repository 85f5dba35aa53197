import { describe, expect, test } from "vitest";
import { crossSpectrum, hannWindow, welch } from "../../../analysis/numerics/spectrum";
import { goldenCase, goldenInputs } from "../../builders/reference";

const y = Float64Array.from(goldenInputs.loop_sine.y);
const q = Float64Array.from(goldenInputs.response.y);
type Psd = { f_step: number; p: number[] };

describe("power spectra agree with SciPy", () => {
  test.each([
    ["welch-density", {}],
    ["welch-spectrum", { scaling: "spectrum" }],
    ["welch-linear", { detrend: "linear" }],
    ["welch-median", { average: "median" }],
  ] as const)("%s", (id, choices) => {
    const { output, within } = goldenCase<Psd>(id);
    const { step, power } = welch(y, { rate: 1, segment: 128, ...choices });
    expect(step).toBe(output.f_step);
    for (const [k, want] of output.p.entries()) expect(within(power[k], want)).toBe(true);
  });
  test("coherence and cross spectrum", () => {
    const { output, within } = goldenCase<{ coherence: number[]; csd_re: number[]; csd_im: number[] }>("coherence");
    const { coherence, re, im } = crossSpectrum(y, q, { rate: 1, segment: 128 });
    for (let k = 0; k < coherence.length; k++) {
      expect(within(coherence[k], output.coherence[k])).toBe(true);
      expect(within(re[k], output.csd_re[k])).toBe(true);
      expect(within(im[k], output.csd_im[k])).toBe(true);
    }
  });
  test("the Hann window", () => {
    const { output, within } = goldenCase<{ hann_periodic: number[] }>("windows");
    for (const [i, w] of hannWindow(8).entries()) expect(within(w, output.hann_periodic[i])).toBe(true);
  });
});
