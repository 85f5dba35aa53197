import { expect, test } from "vitest";
import { LOOKS, observeAll } from "../../../analysis/diagnosis/observations";
import { rank } from "../../../analysis/diagnosis/rank";
import { seededRandom } from "../../../analysis/numerics/random";
import { seconds } from "../../../shared/units/quantity";
import { channelOf, gpm, psi, pumpWith, recordOf, segmentsWith, siteOf } from "../../builders/outcomes";
import { workedHours } from "../../builders/worked-hours";

/** Two hours at 1 s, drawn by hand: the pump runs for 300 s in every 600 s; set pressure 52 psi, shown through what `at` says of second k of a cycle. */
const RUNS = Array.from({ length: 12 }, (_, i) => [i * 600 + 300, 300] as const);
const all = (at: (k: number, t: number) => number) => Array.from({ length: 7200 }, (_, t) => at(t % 600, t));
function sightOf(pressure: (k: number, t: number) => number, speed: (k: number) => number, flow: (k: number) => number = () => 10) {
  const record = recordOf(
    [
      channelOf(
        "pressure",
        "gaugePressure",
        all((k, t) => psi(pressure(k, t))),
      ),
      channelOf(
        "flow",
        "flow",
        all((k) => gpm(flow(k))),
      ),
      channelOf(
        "speed",
        "fraction",
        all((k) => speed(k)),
      ),
    ],
    2,
  );
  const pump = { ...pumpWith(RUNS), observed: [{ from: seconds(0), to: seconds(7200) }] };
  return { outcomes: [], segments: segmentsWith(pump), site: siteOf(), record };
}
const running = (k: number) => k >= 300;
/** Low for 80 s from 30 s after the start on. */
const low = (to: number) => (k: number) => (k >= 330 && k < 410 ? to : 52);

test("pressure that stays short with speed to spare is a late answer; with full speed the pump is at its end", () => {
  const answer = LOOKS["answer-to-draw"];
  expect(answer(sightOf(low(44), (k) => (running(k) ? 0.8 : 0)))?.level).toBe("late");
  expect(answer(sightOf(low(44), (k) => (running(k) ? 1 : 0)))?.level).toBe("at-its-end");
  expect(answer(sightOf(low(50), (k) => (running(k) ? 0.8 : 0)))?.level).toBe("keeps-up"); // 2 psi of 52 is within any band
});

test("one late answer may have been something else", () => {
  const once = (k: number, t: number) => (t < 600 ? low(44)(k) : 52);
  expect(LOOKS["answer-to-draw"](sightOf(once, (k) => (running(k) ? 0.8 : 0)))?.level).toBe("keeps-up");
});

test("the lowest pressure that a run holds for half a minute is found, not the lowest reading", () => {
  const sunk = LOOKS["sunk-pressure"];
  const speed = (k: number) => (running(k) ? 1 : 0);
  expect(sunk(sightOf(low(5), speed))).toMatchObject({ level: "nought", numbers: { lowest: expect.closeTo(psi(5), -2) } });
  expect(sunk(sightOf(low(35), speed))?.level).toBe("low");
  expect(sunk(sightOf((k) => (k >= 400 && k < 420 ? 5 : 52), speed))?.level).toBe("held"); // 20 s
  expect(sunk(sightOf((k) => (k < 300 ? 5 : 52), speed))?.level).toBe("held"); // at rest only
});

test("scatter that comes with the water is told from scatter that is always there", () => {
  const random = seededRandom(8);
  const speed = (k: number) => (running(k) ? 0.8 : 0);
  const scatter = (atRest: number, inRun: number) => (k: number) => 52 + (running(k) ? inRun : atRest) * random.normal();
  expect(LOOKS.roughness(sightOf(scatter(0.05, 1), speed))?.level).toBe("rougher");
  expect(LOOKS.roughness(sightOf(scatter(1, 1), speed))?.level).toBe("alike");
});

test("next to no pressure for minutes in a run is a lost prime, not an overdraw; three quarters of it with all of the flow is the overdraw", () => {
  const order = (pressure: number, flow: number) => {
    const at = (k: number, t: number) => running(k) && t > 3600 && t < 4200;
    const sight = workedHours({
      pressure: (k, t) => (at(k, t) ? pressure : 52),
      speed: (k) => (running(k) ? 1 : 0),
      flow: (k, t) => (at(k, t) ? flow : 10),
    });
    return rank(observeAll(sight)).map(({ id }) => id);
  };
  expect(order(2, 2)[0]).toBe("loss-of-prime");
  expect(order(2, 2).indexOf("undersized-pump-or-overdraw")).toBeGreaterThan(2);
  expect(order(38, 45)[0]).toBe("undersized-pump-or-overdraw");
  expect(order(38, 45).indexOf("loss-of-prime")).toBeGreaterThan(1);
});
