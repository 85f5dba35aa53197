import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BACKGROUND } from "../../../analysis/diagnosis/background";
import { CAUSES } from "../../../analysis/diagnosis/causes";
import { chances, logRatio } from "../../../analysis/diagnosis/likelihood";
import { rank } from "../../../analysis/diagnosis/rank";
import { CAUSE_IDS, type CauseId } from "../../../shared/findings/cause";
import { type Level, OBSERVATION_IDS, OBSERVATIONS, type ObservationId } from "../../../shared/findings/observation";
import { observationsOf } from "../../builders/outcomes";

type Drawn = Partial<Record<ObservationId, string>>;
const anAnswer = (id: ObservationId) => fc.option(fc.constantFrom(...(OBSERVATIONS[id] as readonly string[])), { nil: undefined });
/** Any mix of answers and missing answers. */
const anySite: fc.Arbitrary<Drawn> = fc
  .record(Object.fromEntries(OBSERVATION_IDS.map((id) => [id, anAnswer(id)])))
  .map((drawn) => Object.fromEntries(Object.entries(drawn).filter(([, level]) => level !== undefined)));
const anObservation = fc.constantFrom(...OBSERVATION_IDS);
const confidences = (drawn: Drawn) => new Map(rank(observationsOf(drawn)).map((c) => [c.id, c.confidence]));
const without = (drawn: Drawn, id: ObservationId): Drawn => Object.fromEntries(Object.entries(drawn).filter(([key]) => key !== id));

describe("tables", () => {
  test("every cause has one, in the order of the list", () => {
    expect(CAUSES.map((c) => c.id)).toEqual([...CAUSE_IDS]);
  });
  test.each(OBSERVATION_IDS)("the usual answers to %s sum to 1 and none is rarer than 5 %", (id) => {
    const shares = Object.values(BACKGROUND[id]);
    expect(shares.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
    expect(Math.min(...shares)).toBeGreaterThanOrEqual(0.05);
  });
  test("no answer weighs more than 3 for or against any cause; only what the pump is rules a drive's causes out", () => {
    const readings = OBSERVATION_IDS.filter((id) => id !== "pump-kind");
    const weights = CAUSES.flatMap((c) => readings.flatMap((id) => OBSERVATIONS[id].map((level) => logRatio(c, id, level as Level))));
    expect(Math.max(...weights.map(Math.abs))).toBeLessThanOrEqual(3);
    const atSwitch = CAUSES.filter((c) => logRatio(c, "pump-kind", "switch") < -3).map((c) => c.id);
    expect(atSwitch).toEqual(["loop-too-aggressive", "loop-too-slow", "sleep-settings-hunting"]);
  });
  test("every observation has a say in some cause, and every fault hangs on at least two", () => {
    expect(OBSERVATION_IDS.filter((id) => CAUSES.every((c) => c.weights[id] === undefined))).toEqual(["leak-side"]);
    expect(CAUSES.filter((c) => Object.keys(c.weights).length < 2).map((c) => c.id)).toEqual(["healthy"]);
  });
  test("chances sum to 1 whatever the weights", () => {
    fc.assert(
      fc.property(fc.double({ min: -5, max: 5, noNaN: true }), fc.double({ min: -5, max: 5, noNaN: true }), (a, b) => {
        const out = chances({ x: 0.7, y: 0.2, z: 0.1 }, { x: a, y: b });
        expect(out.x + out.y + out.z).toBeCloseTo(1, 12);
      }),
    );
  });
});

test("confidences sum to 1 for any mix of answers", () => {
  fc.assert(
    fc.property(anySite, (drawn) => {
      expect([...confidences(drawn).values()].reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 10);
    }),
    { numRuns: 60 },
  );
});

test("with nothing known the priors stand: healthy alone above the faults, and these alike", () => {
  const nothing = confidences({});
  const faults = CAUSE_IDS.filter((id) => id !== "healthy").map((id) => nothing.get(id) ?? 0);
  expect(Math.max(...faults) - Math.min(...faults)).toBeLessThan(1e-9);
  expect(nothing.get("healthy")).toBeCloseTo(2.5 / 19.5, 12);
});

test("an answer that speaks for a cause more than for any other never lowers it", () => {
  fc.assert(
    fc.property(anySite, anObservation, (drawn, id) => {
      const before = without(drawn, id);
      for (const level of OBSERVATIONS[id] as readonly Level[]) {
        const weights = CAUSES.map((c) => ({ id: c.id, weight: logRatio(c, id, level) }));
        const most = weights.reduce((a, b) => (b.weight > a.weight ? b : a));
        if (most.weight <= 0) continue;
        const [then, now] = [confidences(before), confidences({ ...before, [id]: level })];
        expect(now.get(most.id) ?? 0).toBeGreaterThanOrEqual((then.get(most.id) ?? 0) - 1e-12);
      }
    }),
    { numRuns: 60 },
  );
});

test("an answer that speaks for a fault never lowers it against healthy when it speaks against healthy", () => {
  fc.assert(
    fc.property(anySite, anObservation, (drawn, id) => {
      const before = without(drawn, id);
      const healthy = CAUSES[CAUSES.length - 1];
      for (const level of OBSERVATIONS[id] as readonly Level[]) {
        if (logRatio(healthy, id, level) > 0) continue;
        const [then, now] = [confidences(before), confidences({ ...before, [id]: level })];
        const odds = (c: Map<CauseId, number>, cause: CauseId) => (c.get(cause) ?? 0) / (c.get("healthy") ?? 1);
        const most = CAUSES.map((c) => ({ id: c.id, weight: logRatio(c, id, level) })).reduce((a, b) => (b.weight > a.weight ? b : a));
        if (most.weight > 0) expect(odds(now, most.id)).toBeGreaterThanOrEqual(odds(then, most.id) * (1 - 1e-9));
      }
    }),
    { numRuns: 40 },
  );
});

test("a missing answer widens: no cause is surer without it than with the answer that speaks most for it", () => {
  fc.assert(
    fc.property(anySite, anObservation, (drawn, id) => {
      const missing = confidences(without(drawn, id));
      const answered = OBSERVATIONS[id].map((level) => confidences({ ...drawn, [id]: level }));
      for (const cause of CAUSE_IDS) {
        const most = Math.max(...answered.map((a) => a.get(cause) ?? 0));
        expect(missing.get(cause) ?? 0).toBeLessThanOrEqual(most + 1e-9);
      }
    }),
    { numRuns: 60 },
  );
});

test("without an answer the belief is the mean over what it could have shown (law of total probability)", () => {
  // One cause against healthy at even odds, worked by hand: P(leak) = sum over answers of P(answer) P(leak | answer).
  const [leak, healthy] = [CAUSES.find((c) => c.id === "leak-or-check-valve"), CAUSES[CAUSES.length - 1]];
  if (leak === undefined) throw new Error("no leak table");
  const answers = OBSERVATIONS["leak-down"].map((level) => {
    const usual = BACKGROUND["leak-down"][level];
    const [a, b] = [usual * Math.exp(logRatio(leak, "leak-down", level)), usual * Math.exp(logRatio(healthy, "leak-down", level))];
    return { chance: (a + b) / 2, belief: a / (a + b) };
  });
  expect(answers.reduce((sum, { chance, belief }) => sum + chance * belief, 0)).toBeCloseTo(0.5, 12);
});

test("no single answer settles a cause", () => {
  for (const id of OBSERVATION_IDS)
    for (const level of OBSERVATIONS[id]) {
      const most = Math.max(...CAUSE_IDS.filter((c) => c !== "healthy").map((c) => confidences({ [id]: level }).get(c) ?? 0));
      expect(most).toBeLessThan(0.75);
    }
});
