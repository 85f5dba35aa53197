import { SURPRISE } from "../../../analysis/diagnosis/likelihood";

/**
 * Sizes of weights from sites whose cause is known. Nothing but sizes: which answers speak for or against a cause, and in which direction, is
 * given, and a size never passes zero. Chances are those of `likelihood.ts`, so that what is fitted is what is ranked.
 *
 * Maximised over all sites: (1 - a) log P(answers | cause) + a log P(cause | answers) - shrink |w - judged|^2 / 2. The first term is a count: it
 * keeps a weight a likelihood ratio, which carries over to other sites. The second knows of the other causes and of answers that say
 * the same thing twice. Hybrid of generative and discriminative learning (Lasserre, Bishop and Minka 2006).
 */
export type Case = {
  readonly cause: number;
  /** By question; -1 where missing. */
  readonly levels: Int8Array;
  readonly weight: number;
};
/** Weights [cause][question][level]; null where the cause has no say in the question. A weight of 0 stays 0. */
export type Weights = readonly (readonly (readonly number[] | null)[])[];
export type Tables = { readonly priors: readonly number[]; readonly background: readonly (readonly number[])[]; readonly weights: Weights };
/** `only`: questions whose weights move, by number; null: all. */
export type FitChoice = {
  readonly share: number;
  readonly shrink: number;
  readonly steps: number;
  readonly only: ReadonlySet<number> | null;
};

/** A direction that physics gives is kept as a hint even where no site showed it. */
const LEAST = 0.1;
const MOST = 3.2;
const RATE = 0.05;

/** Logarithm of an answer's chance under a cause over its coming up by itself, by level, and its slope [level][weight]. */
function logRatios(background: readonly number[], weights: readonly number[]): { readonly logs: number[]; readonly slopes: number[][] } {
  const raw = background.map((b, i) => b * Math.exp(weights[i]));
  const total = raw.reduce((a, b) => a + b, 0);
  const ratios = weights.map((w) => (1 - SURPRISE) * (Math.exp(w) / total) + SURPRISE);
  return {
    logs: ratios.map(Math.log),
    slopes: ratios.map((r, m) => raw.map((p, l) => ((r - SURPRISE) / r) * ((m === l ? 1 : 0) - p / total))),
  };
}

const softmax = (scores: readonly number[]): number[] => {
  const most = Math.max(...scores);
  const raw = scores.map((s) => Math.exp(s - most));
  const total = raw.reduce((a, b) => a + b, 0);
  return raw.map((r) => r / total);
};

/** Belief in each cause given the answers of a site. */
export function beliefs({ priors, background, weights }: Tables, cases: readonly Case[]): number[][] {
  const logs = weights.map((own) => own.map((w, k) => (w === null ? null : logRatios(background[k], w).logs)));
  return cases.map(({ levels }) => softmax(priors.map((prior, c) => Math.log(prior) + scoreOf(logs[c], levels))));
}

function scoreOf(logs: readonly (readonly number[] | null)[], levels: Int8Array): number {
  let score = 0;
  for (let k = 0; k < logs.length; k++) if (levels[k] >= 0) score += logs[k]?.[levels[k]] ?? 0;
  return score;
}

/** Ascent by Adam (Kingma and Ba 2015) from the given weights, each kept on its side of zero. Same cases, same weights. */
export function fitWeights(tables: Tables, cases: readonly Case[], choice: FitChoice): Weights {
  const moves = (k: number) => choice.only === null || choice.only.has(k);
  const fitted = tables.weights.map((own) => own.map((w) => (w === null ? null : [...w])));
  const sides = tables.weights.map((own) => own.map((w, k) => (w === null ? null : w.map((v) => (moves(k) ? Math.sign(v) : 0)))));
  const [mean, square] = [0, 0].map(() => fitted.map((own) => own.map((w) => (w === null ? null : w.map(() => 0)))));
  for (let step = 1; step <= choice.steps; step++) {
    const ascent = gradient({ ...tables, weights: fitted }, tables.weights, cases, choice);
    const rate = (RATE * Math.sqrt(1 - 0.999 ** step)) / (1 - 0.9 ** step);
    fitted.forEach((own, c) => {
      own.forEach((w, k) => {
        const [g, m, s, side] = [ascent[c][k], mean[c][k], square[c][k], sides[c][k]];
        if (w === null || g === null || m === null || s === null || side === null) return;
        for (let l = 0; l < w.length; l++) {
          if (side[l] === 0) continue;
          m[l] = 0.9 * m[l] + 0.1 * g[l];
          s[l] = 0.999 * s[l] + 0.001 * g[l] ** 2;
          const next = w[l] + (rate * m[l]) / (Math.sqrt(s[l]) + 1e-6);
          w[l] = side[l] * Math.min(MOST, Math.max(LEAST, side[l] * next));
        }
      });
    });
  }
  return fitted;
}

function gradient(tables: Tables, judged: Weights, cases: readonly Case[], { share, shrink }: FitChoice): (number[] | null)[][] {
  const { background, weights } = tables;
  const parts = weights.map((own) => own.map((w, k) => (w === null ? null : logRatios(background[k], w))));
  const pulls = weights.map((own) => own.map((w) => (w === null ? null : w.map(() => 0)))); // by answer seen
  const believed = beliefs(tables, cases);
  cases.forEach(({ cause, levels, weight }, i) => {
    for (let c = 0; c < weights.length; c++) {
      const own = c === cause ? 1 : 0;
      const pull = weight * (share * (own - believed[i][c]) + (1 - share) * own);
      for (let k = 0; k < levels.length; k++) {
        const to = pulls[c][k];
        if (to !== null && levels[k] >= 0) to[levels[k]] += pull;
      }
    }
  });
  return weights.map((own, c) =>
    own.map((w, k) => {
      const [pull, part] = [pulls[c][k], parts[c][k]];
      if (w === null || pull === null || part === null) return null;
      const to = judged[c][k] ?? [];
      return w.map((v, l) => pull.reduce((sum, p, m) => sum + p * part.slopes[m][l], 0) - shrink * (v - to[l]));
    }),
  );
}
