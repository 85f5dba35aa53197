import { writeFileSync } from "node:fs";
import { analyse } from "../../../analysis/analyse";
import { CAUSE_IDS } from "../../../shared/findings/cause";
import { type Judged, scoreOf } from "./cause-score";
import { causeCase } from "./cause-sites";
import { reliabilitySvg } from "./reliability-svg";

/**
 * How well causes are told on simulated sites never used for the tables (those took seeds 41 000 to 41 039): a table in Markdown on stdout.
 * Arguments: sites a cause, the first seed, and where to write the reliability plot (left out: nowhere).
 */
const count = Number(process.argv[2] ?? 25);
const first = Number(process.argv[3] ?? 50_000);
type Case = Judged & { readonly channels: string };
const cases: Case[] = [];
for (let i = 0; i < count; i++)
  for (const truth of CAUSE_IDS) {
    const { record, facts } = causeCase(truth, (first + i) * 100 + CAUSE_IDS.indexOf(truth));
    const said = analyse(record, facts).causes.map(({ id, confidence }) => ({ id, confidence }));
    cases.push({ truth, said, channels: record.channels.map((c) => c.role).join(" + ") });
  }

const percent = (share: number) => (Number.isNaN(share) ? "-" : `${(100 * share).toFixed(0)} %`);
const row = (...cells: readonly (string | number)[]) => console.log(`| ${cells.join(" | ")} |`);
const table = (...heads: readonly string[]) => {
  console.log("");
  row(...heads);
  row(...heads.map(() => "---"));
};
const group = (name: string, some: readonly Case[]) => {
  const s = scoreOf(some);
  row(name, s.cases, percent(s.first), percent(s.amongThree), s.brier.toFixed(2), percent(s.soundBlamed));
};

table("sites", "n", "first right", "among three", "Brier", "sound blamed");
group("all", cases);
for (const channels of [...new Set(cases.map((c) => c.channels))].sort())
  group(
    channels,
    cases.filter((c) => c.channels === channels),
  );
table("cause put in", "n", "first right", "among three", "mistaken most for");
for (const truth of CAUSE_IDS) {
  const own = cases.filter((c) => c.truth === truth);
  const wrong = own.flatMap((c) => (c.said[0]?.id === truth ? [] : [c.said[0]?.id ?? "none named"]));
  const most = CAUSE_IDS.map((id) => ({ id, n: wrong.filter((w) => w === id).length })).sort((a, b) => b.n - a.n)[0];
  const s = scoreOf(own);
  row(truth, s.cases, percent(s.first), percent(s.amongThree), most.n === 0 ? "-" : `${most.id} (${most.n})`);
}
table("claimed", "claims", "mean claim", "held");
for (const bin of scoreOf(cases).reliability)
  if (bin.claims > 0) row(`${bin.low} to ${Math.min(1, bin.high)}`, bin.claims, bin.meanClaim.toFixed(2), bin.held.toFixed(2));
const plot = process.argv[4];
if (plot !== undefined) writeFileSync(plot, reliabilitySvg(scoreOf(cases).reliability, `Claims of ${cases.length} simulated sites`));
