import { analyse } from "../../../analysis/analyse";
import { observeAll } from "../../../analysis/diagnosis/observations";
import { CAUSE_IDS, type CauseId } from "../../../shared/findings/cause";
import { inGauge } from "../../../shared/record/in-gauge";
import { causeCase } from "./cause-sites";

/**
 * Simulates one site a cause and seed and prints what the analysis says of it, a JSON line each.
 * Arguments: first seed, number of seeds, and optionally causes (else all). Seeds 41 000 to 41 039 are for the tables, those
 * from 50 000 on for checking them.
 */
const [first = "41000", count = "10", ...only] = process.argv.slice(2);
const causes = CAUSE_IDS.filter((id) => only.length === 0 || only.includes(id));
for (let i = 0; i < Number(count); i++) for (const truth of causes) console.log(JSON.stringify(judge(truth, Number(first) + i)));

function judge(truth: CauseId, seed: number) {
  const { record, facts } = causeCase(truth, seed * 100 + CAUSE_IDS.indexOf(truth));
  const analysis = analyse(record, facts);
  const observations = observeAll({ ...analysis, record: inGauge(record, facts.atmosphere.value) });
  return {
    truth,
    seed,
    channels: record.channels.map((c) => c.role),
    said: analysis.causes.map(({ id, confidence }) => ({ id, confidence })),
    observations: Object.fromEntries(observations.flatMap((o) => (o.level === null ? [] : [[o.id, o.level]]))),
    numbers: Object.fromEntries(observations.flatMap((o) => (o.level === null ? [] : [[o.id, o.numbers]]))),
    untold: analysis.outcomes.flatMap((o) =>
      o.state === "cannot-tell" ? [`${o.kind}: ${o.because.map((b) => `${b.id} ${JSON.stringify(b.detail)}`).join(" & ")}`] : [],
    ),
    broken: analysis.outcomes.flatMap((o) => (o.state === "broken" ? [`${o.kind}: ${o.message}`] : [])),
  };
}
