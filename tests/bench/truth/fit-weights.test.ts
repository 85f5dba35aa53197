import { expect, test } from "vitest";
import { chances } from "../../../analysis/diagnosis/likelihood";
import { seededRandom } from "../../../analysis/numerics/random";
import { beliefs, type Case, fitWeights, type Tables } from "./fit-weights";

const ROUND = { steps: 300, shrink: 0.01, only: null };
const random = seededRandom(12);
const [USUAL, OWN] = [0.8, 0.3]; // chance of the first of two answers by itself, and under the fault

/** Two causes: the second has no say. Its answers to one question, asked `times` over. */
function tablesOf(times: number, start: number): Tables {
  const ask = <T>(value: T): T[] => Array.from({ length: times }, () => value);
  return { priors: [1, 1], background: ask([USUAL, 1 - USUAL]), weights: [ask([0, start]), ask(null)] };
}
const drawn = (times: number): Case[] =>
  Array.from({ length: 1500 }, (_, i) => {
    const cause = i % 2;
    const level = random.next() < (cause === 0 ? OWN : USUAL) ? 0 : 1;
    return { cause, weight: 1, levels: new Int8Array(times).fill(level) };
  });
/** Odds of the fault after the second answer; by Bayes' rule (1 - OWN) / (1 - USUAL) = 3.5 where priors are even. */
const oddsAfter = (tables: Tables, times: number) => {
  const [[fault, sound]] = beliefs(tables, [{ cause: 0, weight: 1, levels: new Int8Array(times).fill(1) }]);
  return fault / sound;
};

test("a count gives the likelihood ratio by which the answers were drawn", () => {
  const tables = tablesOf(1, 0.5);
  const weights = fitWeights(tables, drawn(1), { ...ROUND, share: 0 });
  expect(oddsAfter({ ...tables, weights }, 1)).toBeGreaterThan(3.5 * 0.85);
  expect(oddsAfter({ ...tables, weights }, 1)).toBeLessThan(3.5 * 1.15);
});
test("the same answer asked three times over is not believed three times", () => {
  const tables = tablesOf(3, 0.5);
  const cases = drawn(3);
  const counted = fitWeights(tables, cases, { ...ROUND, share: 0 });
  const told = fitWeights(tables, cases, { ...ROUND, share: 1 });
  expect(oddsAfter({ ...tables, weights: counted }, 3)).toBeGreaterThan(20); // 3.5^3 = 43
  expect(oddsAfter({ ...tables, weights: told }, 3)).toBeLessThan(8); // one weight must serve both answers, so not quite 3.5
});
test("a size never passes zero, whatever the sites say", () => {
  const tables = tablesOf(1, -0.5);
  const [[weights]] = fitWeights(tables, drawn(1), { ...ROUND, share: 0.5 });
  expect(weights?.[1]).toBeLessThan(0);
  expect(weights?.[1]).toBeGreaterThan(-0.2);
});
test("belief follows the chances that the ranking uses", () => {
  const tables = tablesOf(1, 1.2);
  const own = chances({ a: USUAL, b: 1 - USUAL }, { a: 0, b: 1.2 });
  expect(oddsAfter(tables, 1)).toBeCloseTo(own.b / (1 - USUAL), 10);
});
