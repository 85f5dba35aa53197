import { join } from "node:path";
import { BACKGROUND } from "../../../analysis/diagnosis/background";
import { CAUSES } from "../../../analysis/diagnosis/causes";
import { OBSERVATION_IDS, OBSERVATIONS } from "../../../shared/findings/observation";
import { type Evidence, evidenceOf } from "./cause-evidence";
import { scoreOf } from "./cause-score";
import { beliefs, type Case, type FitChoice, fitWeights, type Tables } from "./fit-weights";
import { writeTables } from "./write-tables";

/**
 * Fits the sizes of the weights in `analysis/diagnosis/causes` and the usual chances in `background.ts` to simulated sites, says what five-fold checking
 * within those sites makes of it beside the tables as they stand, and writes the tables where asked to.
 * Arguments: sites a cause, the first seed, "write" (left out: nothing is changed), and the questions to fit (left out: all).
 */
const count = Number(process.argv[2] ?? 40);
const first = Number(process.argv[3] ?? 61_000);
const writes = process.argv.includes("write");
const named = process.argv.slice(4).filter((name) => name !== "write");
const ONLY = named.length === 0 ? null : new Set(named.map((name) => (OBSERVATION_IDS as readonly string[]).indexOf(name)));

const LEVELS = OBSERVATION_IDS.map((id): readonly string[] => OBSERVATIONS[id]);
const PRIORS = CAUSES.map((c) => c.prior);
const caseOf = (e: Evidence): Case => {
  const cause = CAUSES.findIndex((c) => c.id === e.truth);
  return {
    cause,
    weight: PRIORS[cause],
    levels: Int8Array.from(e.observations, ({ level }, k) => (level === null ? -1 : LEVELS[k].indexOf(level))),
  };
};

/** Tables as they stand: directions, priors and which cause has a say in what. */
const STANDING: Tables = {
  priors: PRIORS,
  background: OBSERVATION_IDS.map((id, k) => LEVELS[k].map((level) => (BACKGROUND[id] as Record<string, number>)[level])),
  weights: CAUSES.map(({ weights }) =>
    OBSERVATION_IDS.map((id, k) => {
      const own = weights[id] as Record<string, number> | undefined;
      return own === undefined ? null : LEVELS[k].map((level) => own[level] ?? 0);
    }),
  ),
};

/** No answer is rarer than this by itself, whatever was counted. */
const RAREST = 0.05;
/** Sites of this weight that answer as the tables stand are laid beside the count. */
const BESIDE = 10;

/** How often each answer comes up at sites whose cause has no say in the question. */
function counted(cases: readonly Case[]): number[][] {
  return STANDING.background.map((standing, k) => {
    const seen = standing.map((p) => BESIDE * p);
    for (const { cause, levels, weight } of cases) if (levels[k] >= 0 && STANDING.weights[cause][k] === null) seen[levels[k]] += weight;
    return ONLY === null || ONLY.has(k) ? floored(seen) : [...standing];
  });
}

/** Shares that sum to 1 with none below the rarest. */
function floored(seen: readonly number[]): number[] {
  const total = seen.reduce((a, b) => a + b, 0);
  let shares = seen.map((s) => s / total);
  for (let round = 0; round < 5; round++) {
    const low = shares.map((s) => s <= RAREST);
    const free = shares.reduce((sum, s, i) => sum + (low[i] ? 0 : s), 0);
    const left = 1 - RAREST * low.filter(Boolean).length;
    shares = shares.map((s, i) => (low[i] ? RAREST : (s * left) / free));
  }
  return shares;
}

const tablesFrom = (cases: readonly Case[]): Tables => {
  const tables = { ...STANDING, background: counted(cases) };
  return { ...tables, weights: fitWeights(tables, cases, CHOICE) };
};

const judged = (tables: Tables, cases: readonly Case[]) =>
  beliefs(tables, cases).map((belief, i) => ({
    truth: CAUSES[cases[i].cause].id,
    said: CAUSES.map(({ id }, c) => ({ id, confidence: belief[c] })).sort((a, b) => b.confidence - a.confidence),
  }));

const report = (name: string, all: ReturnType<typeof judged>) => {
  const s = scoreOf(all);
  const high = s.reliability
    .filter((b) => b.low >= 0.75 && b.claims > 0)
    .map((b) => `${b.meanClaim.toFixed(2)}: ${b.held.toFixed(2)} of ${b.claims}`);
  const percent = (x: number) => `${(100 * x).toFixed(1)} %`;
  console.log(
    `| ${[name, s.cases, percent(s.first), percent(s.amongThree), s.brier.toFixed(3), percent(s.soundBlamed), high.join(", ")].join(" | ")} |`,
  );
};

const FOLDS = 5;
const evidence = evidenceOf(count, first);
const cases = evidence.map(caseOf);
console.log(
  "\n| tables | n | first right | among three | Brier | sound blamed | claims: held |\n| --- | --- | --- | --- | --- | --- | --- |",
);
report("as they stand", judged(STANDING, cases));
/** Most of the weight is on what parts causes, and a size leaves its judged one only where some sites ask for it: found by five-fold checking. */
const CHOICE: FitChoice = { share: 0.7, shrink: 4, steps: 150, only: ONLY };
const checked = Array.from({ length: FOLDS }, (_, f) => {
  const held = evidence.map((e) => e.seed % FOLDS === f);
  const tables = tablesFrom(cases.filter((_, i) => !held[i]));
  return judged(
    tables,
    cases.filter((_, i) => held[i]),
  );
});
report("fitted, checked five-fold", checked.flat());
if (writes) writeTables(join(process.cwd(), "analysis", "diagnosis"), tablesFrom(cases));
