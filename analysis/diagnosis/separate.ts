import type { CauseId, CheckId, CheckOutcome, ToSeparate } from "../../shared/findings/cause";
import { type Level, OBSERVATIONS, type Observation, type ObservationId } from "../../shared/findings/observation";
import { channelsOf } from "../../shared/record/find-channel";
import type { LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";
import { BACKGROUND } from "./background";
import { CAUSES } from "./causes";
import type { CauseTable } from "./causes/cause-table";
import { HAND_CHECKS, type HandCheck, OPENERS, type Opener } from "./checks";
import { type Chances, chances, ownChances } from "./likelihood";
import type { Ranked } from "./rank";

/** Below this gain a check would part the two no better than doing nothing, bits. */
const LEAST_GAIN = 0.02;

/** Two causes with their shares, which sum to 1. */
type Rivals = { readonly cause: CauseTable; readonly rival: CauseTable; readonly share: number };
type Proposal = {
  readonly check: CheckId;
  readonly gainBits: number;
  readonly reverses: boolean;
  readonly outcomes: readonly CheckOutcome[];
};

const tableOf = (id: CauseId): CauseTable => CAUSES.find((c) => c.id === id) ?? CAUSES[CAUSES.length - 1];
const bits = (p: number) => (p <= 0 ? 0 : -p * Math.log2(p));
const entropy = (share: number) => bits(share) + bits(1 - share);

/**
 * Expected gain of information between two causes from one question: entropy now less the mean entropy after each answer. Never below 0.
 * @param first chances of each answer under the first cause     @param second under the second     @param share of the first, 0 to 1
 * Source: Shannon's mutual information; a question that settles an even choice for certain gives 1 bit.
 */
export function expectedGain(first: Chances, second: Chances, share: number): number {
  let after = 0;
  for (const answer of Object.keys(first)) {
    const both = share * first[answer] + (1 - share) * second[answer];
    if (both > 0) after += both * entropy((share * first[answer]) / both);
  }
  return Math.max(0, entropy(share) - after);
}

/** Whether some answer would put the less likely of the two first: one that only confirms what stands is not worth the trouble. */
export function mayReverse(first: Chances, second: Chances, share: number): boolean {
  const firstLeads = share >= 0.5;
  return Object.keys(first).some((answer) => share * first[answer] > (1 - share) * second[answer] !== firstLeads);
}

const pointsTo = ({ cause, rival }: Rivals, first: Chances, second: Chances, answer: string): CauseId =>
  first[answer] >= second[answer] ? cause.id : rival.id;

function byHand(check: HandCheck, rivals: Rivals): Proposal {
  const usual = check.usual as Chances;
  const under = (id: CauseId) => chances(usual, check.weights[id]);
  const [first, second] = [under(rivals.cause.id), under(rivals.rival.id)];
  const results = Object.keys(check.usual) as (keyof typeof check.usual)[];
  return {
    check: check.id,
    gainBits: expectedGain(first, second, rivals.share),
    reverses: mayReverse(first, second, rivals.share),
    outcomes: results.map((result) => ({ shows: { kind: "result", result }, pointsTo: pointsTo(rivals, first, second, result) })),
  };
}

function byObservation(check: CheckId, id: ObservationId, rivals: Rivals): Proposal {
  const usual: Chances = BACKGROUND[id];
  const [first, second] = [ownChances(rivals.cause, id) ?? usual, ownChances(rivals.rival, id) ?? usual];
  const levels: readonly Level[] = OBSERVATIONS[id];
  return {
    check,
    gainBits: expectedGain(first, second, rivals.share),
    reverses: mayReverse(first, second, rivals.share),
    outcomes: levels.map((level) => ({ shows: { kind: "answer", id, level }, pointsTo: pointsTo(rivals, first, second, level) })),
  };
}

/** The best of the open questions a fact or channel would answer: a lower bound of what it brings. */
function byOpener(opener: Opener, open: ReadonlySet<ObservationId>, rivals: Rivals): Proposal | null {
  return best(opener.opens.filter((id) => open.has(id)).map((id) => byObservation(opener.id, id, rivals)));
}

const best = (proposals: readonly Proposal[]): Proposal | null =>
  proposals
    .filter((p) => p.reverses)
    .reduce<Proposal | null>((most, p) => (most === null || p.gainBits > most.gainBits + 1e-9 ? p : most), null);

/** Facts and channels that are not there yet: asking again would bring nothing. */
function missing(site: SiteFacts, record: LogRecord): ReadonlySet<CheckId> {
  const pressures = channelsOf(record, "pressure").length;
  const has = (role: "flow" | "speed" | "temperature") => channelsOf(record, role).length > 0;
  const lacking: Partial<Record<CheckId, boolean>> = {
    "ask-set-pressure": site.setPressure === null && site.pump !== "fixed-speed",
    "ask-tank-volume": site.tankVolume === null,
    "ask-precharge": site.precharge === null,
    "ask-pump-flow": site.pumpRatedFlow === null,
    "ask-pipe": site.pipeInsideDiameter === null && site.sensorToTank !== null,
    "measure-sensor-distance": site.sensorToTank === null,
    "log-longer": record.duration < 24 * 3600,
    "log-faster": true,
    "log-flow": !has("flow"),
    "log-speed": !has("speed"),
    "log-second-pressure": pressures < 2,
    "log-temperature": !has("temperature"),
  };
  return new Set([...HAND_CHECKS, ...OPENERS].map((c) => c.id).filter((id) => lacking[id] ?? true));
}

/**
 * For each of the likeliest causes the check, fact or channel with the highest expected gain of information between it and its rival:
 * the likeliest cause, or for that one the next. Only checks with an outcome that would reverse the two. Null where there is none, and for
 * causes far down.
 */
export function separate(
  ranked: readonly Ranked[],
  observations: readonly Observation[],
  site: SiteFacts,
  record: LogRecord,
  depth = 5,
): (ToSeparate | null)[] {
  const open = new Set(observations.filter((o) => o.level === null).map((o) => o.id));
  const possible = missing(site, record);
  return ranked.map(({ id, confidence }, i) => {
    if (i >= depth) return null;
    const rival = ranked[i === 0 ? 1 : 0];
    const rivals = { cause: tableOf(id), rival: tableOf(rival.id), share: confidence / (confidence + rival.confidence) };
    const proposals = [
      ...HAND_CHECKS.filter((c) => possible.has(c.id)).map((c) => byHand(c, rivals)),
      ...OPENERS.filter((o) => possible.has(o.id)).flatMap((o) => byOpener(o, open, rivals) ?? []),
    ];
    const chosen = best(proposals);
    if (chosen === null || chosen.gainBits < LEAST_GAIN) return null;
    const { check, gainBits, outcomes } = chosen;
    return { check, gainBits, outcomes, cause: id, rival: rival.id };
  });
}
