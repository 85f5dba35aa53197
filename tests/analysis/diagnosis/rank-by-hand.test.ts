import { describe, expect, test } from "vitest";
import { BACKGROUND } from "../../../analysis/diagnosis/background";
import { CAUSES } from "../../../analysis/diagnosis/causes";
import type { CauseTable } from "../../../analysis/diagnosis/causes/cause-table";
import { logRatio } from "../../../analysis/diagnosis/likelihood";
import { rank } from "../../../analysis/diagnosis/rank";
import type { CauseId } from "../../../shared/findings/cause";
import { type Level, OBSERVATION_IDS, OBSERVATIONS, type ObservationId } from "../../../shared/findings/observation";
import { observationsOf } from "../../builders/outcomes";

/**
 * Bayes' rule worked through once more, with nothing of the program's own but its tables: the chance of an answer under a cause is its chance by itself times
 * e^weight, brought to a sum of 1, with three hundredths of surprise.
 */
const HEALTHY = "healthy";
function chanceOf(cause: CauseTable, id: ObservationId, level: string): number {
  const usual: Readonly<Record<string, number>> = BACKGROUND[id];
  const weights = cause.weights[id] as Readonly<Record<string, number>> | undefined;
  if (weights === undefined) return usual[level];
  const raised = (l: string) => usual[l] * Math.exp(weights[l] ?? 0);
  const all = Object.keys(usual).reduce((sum, l) => sum + raised(l), 0);
  return 0.97 * (raised(level) / all) + 0.03 * usual[level];
}
const ratioOf = (cause: CauseTable, id: ObservationId, level: string) =>
  chanceOf(cause, id, level) / (BACKGROUND[id] as Readonly<Record<string, number>>)[level];

const SITES: readonly Partial<Record<ObservationId, string>>[] = [
  { "gas-constant": "collapsed", starts: "many", runs: "mostly-short" },
  { oscillation: "large", "oscillation-driver": "loop", "oscillation-period": "fast", "surge-period": "agrees", noise: "quiet" },
  { prime: "lost", shutoff: "weak", "held-pressure": "below" },
  { starts: "few", runs: "long", oscillation: "none", drift: "within", "gas-constant": "as-expected" },
  { "leak-down": "present", "leak-side": "back", "starts-without-draw": "often" },
];

describe.each(SITES.map((site, i) => [i, site] as const))("site %i", (_, site) => {
  const ranked = rank(observationsOf(site));
  const answers = Object.entries(site) as [ObservationId, string][];
  const post = new Map(CAUSES.map((c) => [c.id, c.prior * answers.reduce((product, [id, level]) => product * ratioOf(c, id, level), 1)]));
  const all = [...post.values()].reduce((a, b) => a + b);

  test("confidences are the posterior by Bayes' rule, likeliest first", () => {
    for (const { id, confidence } of ranked) expect(confidence, id).toBeCloseTo(post.get(id)! / all, 12);
    expect(ranked.map((c) => c.confidence)).toEqual([...ranked.map((c) => c.confidence)].sort((a, b) => b - a));
  });
  test("reasons are the answers that move a cause by e^0.2 and more, strongest first; for and against by their sign", () => {
    for (const { id, for: pro, against } of ranked.filter((c) => c.id !== HEALTHY)) {
      const table = CAUSES.find((c) => c.id === id)!;
      const weights = answers.map(([o, level]) => ({ id: o, weight: Math.log(ratioOf(table, o, level)) }));
      const strongest = (a: { weight: number }, b: { weight: number }) => Math.abs(b.weight) - Math.abs(a.weight);
      expect(pro.map((r) => r.id), id).toEqual(weights.filter((w) => w.weight >= 0.2).sort(strongest).map((w) => w.id)); // biome-ignore format: one rule a line
      expect(against.map((r) => r.id), id).toEqual(weights.filter((w) => w.weight <= -0.2).sort(strongest).map((w) => w.id)); // biome-ignore format: one rule a line
      for (const reason of [...pro, ...against]) expect(reason.weight).toBeCloseTo(weights.find((w) => w.id === reason.id)!.weight, 12);
    }
  });
  test("for a healthy site speaks what speaks against the faults on average, from a fifth of that weight", () => {
    const faults = CAUSES.filter((c) => c.id !== HEALTHY);
    const weights = answers.map(([o, level]) => ({
      id: o,
      weight: -Math.log(faults.reduce((sum, c) => sum + ratioOf(c, o, level), 0) / faults.length),
    }));
    const healthy = ranked.find((c) => c.id === HEALTHY)!;
    for (const { id, weight } of weights) {
      const [pro, against] = [healthy.for.find((r) => r.id === id), healthy.against.find((r) => r.id === id)];
      expect(pro?.weight ?? null, id).toEqual(weight >= 0.04 ? expect.closeTo(weight, 12) : null);
      expect(against?.weight ?? null, id).toEqual(weight <= -0.04 ? expect.closeTo(weight, 12) : null);
    }
  });
  test("beside the first stands what the first has no say in, against a sound site", () => {
    const first = CAUSES.find((c) => c.id === ranked[0].id)!;
    const sound = CAUSES.find((c) => c.id === HEALTHY)!;
    for (const { id, besideFirst } of ranked) {
      const table = CAUSES.find((c) => c.id === id)!;
      if (first.id === HEALTHY || id === HEALTHY || id === first.id) {
        expect(besideFirst, id).toBeNull();
        continue;
      }
      const rest = answers.filter(([o]) => first.weights[o] === undefined);
      const odds = (table.prior / sound.prior) * rest.reduce((product, [o, level]) => product * ratioOf(table, o, level), 1);
      expect(besideFirst, id).toBeCloseTo(odds / (1 + odds), 12);
    }
  });
});

test("what a cause has no say in moves it by nothing", () => {
  for (const cause of CAUSES)
    for (const id of OBSERVATION_IDS.filter((o) => cause.weights[o] === undefined))
      for (const level of OBSERVATIONS[id]) expect(logRatio(cause, id, level as Level), `${cause.id} ${id}`).toBe(0);
});

test("asked again, an answer weighs the same", () => {
  const ids = CAUSES.map((c): CauseId => c.id);
  expect(rank(observationsOf(SITES[0]))).toEqual(rank(observationsOf(SITES[0])));
  expect(new Set(rank(observationsOf(SITES[1])).map((c) => c.id))).toEqual(new Set(ids));
});
