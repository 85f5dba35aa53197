import { writeFileSync } from "node:fs";
import { diagnose } from "../../../analysis/diagnosis/diagnose";
import { CAUSE_IDS } from "../../../shared/findings/cause";
import { seenCase } from "./case-cache";
import { factsOfCase } from "./cause-evidence";
import { type Judged, scoreOf } from "./cause-score";
import { reliabilitySvg } from "./reliability-svg";

/**
 * How well causes are told on simulated sites never used for the tables (those took seeds 41 000 to 61 039 and 110 000 to 110 069): a table in Markdown on stdout.
 * Arguments: sites a cause, the first seed, and where to write the reliability plot (left out: nowhere).
 */
const count = Number(process.argv[2] ?? 25);
const first = Number(process.argv[3] ?? 50_000);
type Case = Judged & ReturnType<typeof factsOfCase>;
const cases: Case[] = [];
for (let i = 0; i < count; i++)
  for (const truth of CAUSE_IDS) {
    const { sight } = seenCase(truth, first + i);
    const said = diagnose(sight.outcomes, sight.segments, sight.site, sight.record).map(({ id, confidence }) => ({ id, confidence }));
    cases.push({ truth, said, ...factsOfCase(sight) });
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
const some: readonly (readonly [string, (c: Case) => boolean])[] = [
  ["drive", (c) => c.pump === "drive"],
  ["pressure switch", (c) => c.pump === "switch"],
  ["up to 5 s a sample", (c) => c.interval < 6],
  ["10 s to 60 s a sample", (c) => c.interval >= 6],
  ["pressure, flow, speed, up to 5 s", (c) => c.interval < 6 && c.channels === "pressure + flow + speed"],
];
for (const [name, belongs] of some) group(name, cases.filter(belongs));
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
