import { describe, expect, test } from "vitest";
import { fallGoesOn } from "../../../analysis/diagnosis/observations/rest-fall";
import { gasConstantByStarts } from "../../../analysis/diagnosis/observations/tank-by-starts";
import { seededRandom } from "../../../analysis/numerics/random";
import type { DrawState } from "../../../shared/findings/segment";
import { seconds } from "../../../shared/units/quantity";
import { channelOf, psi, pumpWith, recordOf, segmentsWith, siteOf } from "../../builders/outcomes";

const AIR = 101_325;
const CYCLE = 600; // s: the pump rests for 480 s and runs for 120 s
const REST = 480;
const CYCLES = 12;
const RUNS = Array.from({ length: CYCLES }, (_, i) => [i * CYCLE + REST, CYCLE - REST] as const);
const random = seededRandom(4);
const noise = Array.from({ length: CYCLES * CYCLE }, () => 150 * random.normal()); // Pa

/** `rest`: pressure, Pa gauge, k seconds into the i-th rest. `flow`: m3/s. */
function sightOf(rest: (k: number, i: number) => number, flow: (k: number) => number = () => 0) {
  const at = Array.from({ length: CYCLES * CYCLE }, (_, t) => ({ k: t % CYCLE, i: Math.floor(t / CYCLE) }));
  const pressure = at.map(({ k, i }, t) => (k < REST ? rest(k, i) : psi(52)) + noise[t]);
  const record = recordOf(
    [
      channelOf("pressure", "gaugePressure", pressure),
      channelOf(
        "flow",
        "flow",
        at.map(({ k }) => flow(k)),
      ),
    ],
    (CYCLES * CYCLE) / 3600,
  );
  const pump = { ...pumpWith(RUNS), observed: [{ from: seconds(0), to: seconds(CYCLES * CYCLE) }] };
  const idle = Array.from({ length: CYCLES }, (_, i) => ({ from: seconds(i * CYCLE), to: seconds(i * CYCLE + REST) }));
  const draw: DrawState = { basis: "flow", draws: [], idle };
  return { outcomes: [], segments: segmentsWith(pump, draw), site: siteOf(), record };
}

describe("a fall at rest goes on where water is lost", () => {
  const start = psi(52) + AIR;
  test("a leak: 1/p rises evenly in every rest (Boyle, q = K d(1/p)/dt)", () => {
    expect(fallGoesOn(sightOf((k) => 1 / (1 / start + 2e-10 * k) - AIR))).toBe(true);
  });
  test("gas that cools loses as much in the first minutes and then stands: e^(-t/T)", () => {
    expect(fallGoesOn(sightOf((k) => psi(52) - 9000 * (1 - Math.exp(-k / 60))))).toBe(false);
  });
  test("a draw that the meter does not see comes in one rest and not in the next", () => {
    expect(fallGoesOn(sightOf((k, i) => (i % 3 === 0 ? psi(52) : 1 / (1 / start + 2e-10 * k) - AIR)))).toBe(false);
  });
  test("a pressure that stands leaves it open", () => {
    expect(fallGoesOn(sightOf(() => psi(52)))).toBeNull();
  });
});

describe("gas constant from the starts of a drive", () => {
  // Worked by hand: a draw of 0.5 l/s begins 15 s before the start on a tank of K = 5000 J: 1/p rises by 0.5e-3 / 5000 = 1e-7 1/(Pa s).
  const [Q, K, BEGIN] = [0.5e-3, 5000, REST - 15];
  const rest = (k: number) => (k < BEGIN ? psi(52) : 1 / (1 / (psi(52) + AIR) + (Q / K) * (k - BEGIN)) - AIR);
  const within = (value: number | undefined) => expect((value ?? 0) / K);
  test("with a meter that sees the draw at all times", () => {
    within(gasConstantByStarts(sightOf(rest, (k) => (k >= BEGIN ? Q : 0)))?.value).toBeCloseTo(1, 1);
  });
  test("with a meter before the tank, which sees nothing while the pump rests", () => {
    within(gasConstantByStarts(sightOf(rest, (k) => (k >= REST ? Q : 0)))?.value).toBeCloseTo(1, 1);
  });
  test("not from a meter that sees only what goes into the tank", () => {
    expect(gasConstantByStarts(sightOf(rest, (k) => (k >= REST + 60 ? 10 * Q : k >= REST ? 0.1 * Q : 0)))).toBeNull();
  });
});
