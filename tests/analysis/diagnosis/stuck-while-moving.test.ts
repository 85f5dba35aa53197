import { expect, test } from "vitest";
import { stuckWhileMoving } from "../../../analysis/diagnosis/observations/stuck-while-moving";
import { seededRandom } from "../../../analysis/numerics/random";
import { channelOf, gpm, psi, pumpWith } from "../../builders/outcomes";

/** An hour at 1 s: a draw every five minutes pulls pressure down by 3 psi while it lasts; noise of 0.02 psi, steps of 0.01 psi. */
const SECONDS = 3600;
const drawing = (t: number) => t % 300 < 60;
const random = seededRandom(3);
const noise = Array.from({ length: SECONDS }, () => 0.02 * random.normal());
const reading = (at: (t: number) => number, step = 0.01) =>
  channelOf(
    "pressure",
    "gaugePressure",
    noise.map((n, t) => psi(Math.round((at(t) + n) / step) * step)),
  );
const flow = channelOf(
  "flow",
  "flow",
  noise.map((_, t) => (drawing(t) ? gpm(20) : 0)),
);
const live = (t: number) => (drawing(t) ? 49 : 52);

test("a reading that follows the draws is alive", () => {
  expect(stuckWhileMoving(reading(live), flow, null, gpm(20))).toBe(0);
});
test("a reading that only scatters while the draws go on is stuck for as long", () => {
  const stuck = stuckWhileMoving(
    reading((t) => (t < 1700 ? live(t) : 52)),
    flow,
    null,
    gpm(20),
  );
  expect(stuck).toBeGreaterThan(1200);
  expect(stuck).toBeLessThan(1900);
});
test("a reading that stands still while nothing moves says nothing", () => {
  const calm = channelOf(
    "flow",
    "flow",
    noise.map(() => 0),
  );
  expect(
    stuckWhileMoving(
      reading(() => 52),
      calm,
      null,
      gpm(20),
    ),
  ).toBeNull();
});
test("steps too coarse for the change leave it open", () => {
  expect(stuckWhileMoving(reading(live, 4), flow, null, gpm(20))).toBeNull();
});
test("starts and stops of a pump with a witness of its own count as moments too", () => {
  const pump = pumpWith(Array.from({ length: 8 }, (_, i) => [i * 400 + 100, 60] as const));
  expect(
    stuckWhileMoving(
      reading(() => 52),
      null,
      pump,
      Number.NaN,
    ),
  ).toBeGreaterThan(2000);
  expect(
    stuckWhileMoving(
      reading(() => 52),
      null,
      { ...pump, basis: "pressure" },
      Number.NaN,
    ),
  ).toBeNull();
});
test("in a log where every switch moves the reading, three switches in a row that do not are no chance", () => {
  const pump = pumpWith(Array.from({ length: 9 }, (_, i) => [i * 400 + 100, 150] as const));
  const running = (t: number) => t % 400 >= 100 && t % 400 < 250;
  const alive = (t: number) => (running(t) ? 52 : 49);
  const seen = (from: number, to: number) =>
    stuckWhileMoving(
      reading((t) => (t >= from && t < to ? 52 : alive(t))),
      null,
      pump,
      Number.NaN,
    );
  expect(seen(0, 0)).toBe(0);
  expect(seen(850, 1800)).toBeGreaterThan(500);
  expect(seen(850, 1000)).toBe(0); // one switch only
});
test("starts and stops that come faster than the readings are seen in none of them", () => {
  const rising = Array.from({ length: 120 }, (_, i) => psi(45 + 0.3 * (i % 30)));
  const slow = channelOf("pressure", "gaugePressure", rising, 60);
  const quick = [0, 20, 40, 60].map((t) => [1215 + t, 10] as const);
  const long = Array.from({ length: 12 }, (_, i) => [i * 400 + 1800, 200] as const);
  expect(stuckWhileMoving(slow, null, pumpWith([...quick, ...long]), Number.NaN)).toBe(0);
});
