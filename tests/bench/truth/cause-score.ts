import type { CauseId } from "../../../shared/findings/cause";

/** What was said of one case: every cause with its confidence, likeliest first. */
export type Judged = { readonly truth: CauseId; readonly said: readonly { readonly id: CauseId; readonly confidence: number }[] };
/** Claims whose confidence lies in a bin, and the share of them that held. */
export type ReliabilityBin = {
  readonly low: number;
  readonly high: number;
  readonly claims: number;
  readonly meanClaim: number;
  readonly held: number;
};
export type CauseScore = {
  readonly cases: number;
  readonly first: number;
  readonly amongThree: number;
  /** Mean over cases of the squared error summed over all causes: 0 is perfect, 1 - 1/n is a guess at random. Brier 1950. */
  readonly brier: number;
  /** Share of sound sites whose first cause is a fault. */
  readonly soundBlamed: number;
  readonly reliability: readonly ReliabilityBin[];
};

const share = (n: number, of: number) => (of === 0 ? Number.NaN : n / of);

/** Reliability over every cause of every case: of the claims made at about p, the share that was true. */
export function reliabilityOf(
  judged: readonly Judged[],
  edges: readonly number[] = [0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.75, 0.85, 0.95, 1.0001],
): ReliabilityBin[] {
  const claims = judged.flatMap(({ truth, said }) => said.map(({ id, confidence }) => ({ confidence, held: id === truth })));
  return edges.slice(1).map((high, i) => {
    const inBin = claims.filter((c) => c.confidence >= edges[i] && c.confidence < high);
    return {
      low: edges[i],
      high,
      claims: inBin.length,
      meanClaim: share(
        inBin.reduce((sum, c) => sum + c.confidence, 0),
        inBin.length,
      ),
      held: share(inBin.filter((c) => c.held).length, inBin.length),
    };
  });
}

export function scoreOf(judged: readonly Judged[]): CauseScore {
  const sound = judged.filter((j) => j.truth === "healthy");
  const squared = ({ truth, said }: Judged) =>
    said.reduce((sum, { id, confidence }) => sum + (confidence - (id === truth ? 1 : 0)) ** 2, 0);
  return {
    cases: judged.length,
    first: share(judged.filter((j) => j.said[0]?.id === j.truth).length, judged.length),
    amongThree: share(judged.filter((j) => j.said.slice(0, 3).some((s) => s.id === j.truth)).length, judged.length),
    brier: share(
      judged.reduce((sum, j) => sum + squared(j), 0),
      judged.length,
    ),
    soundBlamed: share(sound.filter((j) => j.said[0]?.id !== "healthy").length, sound.length),
    reliability: reliabilityOf(judged),
  };
}
