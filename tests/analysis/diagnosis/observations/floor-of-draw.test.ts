import { expect, test } from "vitest";
import { hasFloor } from "../../../../analysis/diagnosis/observations/floor-of-draw";
import type { DrawState } from "../../../../shared/findings/segment";
import { channelOf, NO_FACTS, psi, pumpWith, recordOf, segmentsWith } from "../../../builders/outcomes";

const AIR = 101_325;
const [REST, RUN] = [300, 60]; // s
const draw: DrawState = { basis: "pressure", draws: [], idle: [] };

/** `rate`: rise of 1/p in the i-th rest, 1/(Pa s); q = K d(1/p)/dt (Boyle). */
function sightOf(rests: number, rate: (i: number) => number, step = 1) {
  const pressure = Array.from({ length: (rests * (REST + RUN)) / step }, (_, k) => {
    const t = k * step;
    const [i, at] = [Math.floor(t / (REST + RUN)), t % (REST + RUN)];
    return at < REST ? 1 / (1 / (psi(52) + AIR) + rate(i) * at) - AIR : psi(50);
  });
  const record = recordOf([channelOf("pressure", "gaugePressure", pressure, step)], (step * pressure.length) / 3600);
  const pump = pumpWith(Array.from({ length: rests }, (_, i) => [i * (REST + RUN) + REST, RUN] as const));
  return { outcomes: [], segments: segmentsWith(pump, draw), site: NO_FACTS, record };
}

test("a leak empties the tank as fast in every rest without a draw, and draws come on top", () => {
  expect(hasFloor(sightOf(20, (i) => 1e-9 * (i % 2 === 0 ? 1 : 1 + (i % 5))))).toBe(true);
  expect(hasFloor(sightOf(40, (i) => 1e-9 * (i % 2 === 0 ? 1 : 1 + (i % 5)), 4)), "at 4 s a reading as well").toBe(true);
});
test("a site that always draws empties it now faster and now slower", () => {
  expect(hasFloor(sightOf(20, (i) => 1e-9 * (1 + i / 4)))).toBe(false);
});
test("a pressure that stands has no floor, and few pieces of rests show none", () => {
  expect(hasFloor(sightOf(20, () => 0))).toBe(false);
  expect(hasFloor(sightOf(3, () => 1e-9))).toBe(false);
});
