import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { TOP } from "../../house/source-files";

type Linear = readonly [number, number, number];

const CSS = readFileSync(join(TOP, "src/look/tokens.css"), "utf8");
const LIGHTS = ["paper", "night", "sunlight"] as const;
const HUES = ["pressure", "flow", "speed", "electric", "other"] as const;

function tokensOf(light: string): ReadonlyMap<string, string> {
  const block = new RegExp(`:root\\[data-light="${light}"\\] \\{([^}]*)\\}`).exec(CSS)?.[1] ?? "";
  return new Map([...block.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map((match) => [match[1], match[2]]));
}

/** sRGB to linear light: IEC 61966-2-1. */
function linear(hex: string): Linear {
  const parts = [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255);
  const [r, g, b] = parts.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return [r, g, b];
}

/** Contrast of two colours: WCAG 2.2, definitions of relative luminance and contrast ratio. */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => linear(hex).reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

/** Full loss of one kind of cone, in linear light: Machado, Oliveira and Fernandes 2009, table for severity 1.0 (from memory). */
const EYES: Readonly<Record<string, readonly Linear[]>> = {
  "full colour": [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};
const seen = (eye: readonly Linear[], c: Linear) =>
  eye.map((row) => Math.min(1, Math.max(0, row[0] * c[0] + row[1] * c[1] + row[2] * c[2])));

/** Oklab (Ottosson 2020): distances in it follow what eyes tell apart; about 0.02 is just noticeable. */
function oklab([r, g, b]: readonly number[]): readonly number[] {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}
const distance = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((v, i) => v - b[i]));

describe.each(LIGHTS)("in the light of %s", (light) => {
  const token = (name: string) => tokensOf(light).get(name) ?? "";

  test.each(["ink", "ink-soft"])("%s reads on paper, on a raised sheet and under the highlighter", (ink) => {
    for (const ground of ["paper", "paper-raised", "highlight"]) expect(contrast(token(ink), token(ground))).toBeGreaterThanOrEqual(4.5);
  });
  test.each([...HUES, "edge", "limit"])("a line in %s stands out from the paper and under the highlighter", (hue) => {
    for (const ground of ["paper", "highlight"]) expect(contrast(token(hue), token(ground))).toBeGreaterThanOrEqual(3);
  });
  test.each(Object.keys(EYES))("the five hues are told apart with %s", (eye) => {
    const labs = HUES.map((hue) => oklab(seen(EYES[eye], linear(token(hue)))));
    const close = HUES.flatMap((a, i) =>
      HUES.slice(i + 1).flatMap((b, k) => {
        const d = distance(labs[i], labs[i + 1 + k]);
        return d < 0.06 ? [`${a} and ${b}: ${d.toFixed(3)}`] : [];
      }),
    );
    expect(close).toEqual([]);
  });
});

test("the device's dark light is the night's", () => {
  const dark = /:root:not\(\[data-light="paper"\], \[data-light="sunlight"\]\) \{([^}]*)\}/.exec(CSS)?.[1] ?? "";
  const night = /:root\[data-light="night"\] \{([^}]*)\}/.exec(CSS)?.[1] ?? "x";
  const lines = (block: string) => block.split("\n").map((line) => line.trim());
  expect(lines(dark)).toEqual(lines(night));
});
