import { analyse } from "../../../analysis/analyse";
import { compareVisits } from "../../../analysis/comparison/before-and-after";
import { measureVisit } from "../../../analysis/comparison/visit-measures";
import { type Comparison, MEASURE_IDS, type MeasureId, type Verdict } from "../../../shared/findings/comparison";
import type { LogRecord } from "../../../shared/record/log-record";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { changePair, PAIR_FAULTS, type PairFault } from "./change-pairs";

/**
 * How often before and after tells of a change that there is not, and of one that there is: a table in Markdown on stdout. Arguments: pairs a
 * row, and the first seed.
 */
const pairs = Number(process.argv[2] ?? 30);
const first = Number(process.argv[3] ?? 500_000);

const measuresOf = (record: LogRecord, facts: SiteFacts) => measureVisit(record, analyse(record, facts));

type Row = readonly [name: string, isMended: boolean, slowerBy: number, isUnlike: boolean];

function compare(seed: number, fault: PairFault, [, isMended, slowerBy, isUnlike]: Row): Comparison {
  const { before, after, facts } = changePair(seed, fault, isMended, slowerBy, isUnlike);
  return compareVisits(measuresOf(before, facts), measuresOf(after, facts));
}

/** A claim that it became better: plainly so, or a limit met that the visit before did not keep. */
const saysBetter = ({ verdict, before, limit }: Comparison["measures"][number]): boolean =>
  verdict === "better" ||
  verdict === "better-but-not-met" ||
  (verdict === "met" && before !== null && limit !== null && before.low > limit);

const row = (...cells: readonly (string | number)[]) => console.log(`| ${cells.join(" | ")} |`);
const shortNames: Readonly<Record<MeasureId, string>> = {
  "starts-per-hour": "starts",
  "short-cycles-per-day": "short",
  "oscillating-share": "osc. share",
  "oscillation-height": "osc. height",
  "drift-at-steady-flow": "drift",
  "share-within-band": "band",
};
const heads = ["pairs", "n", "overall better", "overall worse", "any worse", ...MEASURE_IDS.map((id) => shortNames[id])];
console.log("");
row(...heads);
row(...heads.map(() => "---"));

const WORSE: readonly Verdict[] = ["worse"];
let seed = first;
const ROWS: readonly Row[] = [
  ["no change", false, 1, false],
  ["no change, second logger five times slower", false, 5, false],
  ["no change, unlike lengths, no flow", false, 1, true],
  ["fault gone", true, 1, false],
  ["fault gone, unlike lengths, no flow", true, 1, true],
];
for (const order of ROWS) {
  const [name, isMended] = order;
  const all: Comparison[] = [];
  for (let i = 0; i < pairs; i++)
    for (const fault of PAIR_FAULTS) if (!(isMended && fault === "none")) all.push(compare(seed++, fault, order));
  const share = (some: readonly Comparison[], is: (c: Comparison) => boolean) => `${some.filter(is).length} of ${some.length}`;
  const told = (id: MeasureId) => {
    const compared = all.filter((c) => c.measures.some((m) => m.id === id && m.verdict !== "cannot-compare"));
    return `${share(compared, (c) => c.measures.some((m) => m.id === id && saysBetter(m)))}`;
  };
  // The verdict of the visit says better where it says met or better and some measure became so.
  const overall = (c: Comparison) =>
    ["met", "better", "better-but-not-met"].includes(c.overall) && c.measures.some((m) => m.limit !== null && saysBetter(m));
  row(
    name,
    all.length,
    share(all, overall),
    share(all, (c) => WORSE.includes(c.overall)),
    share(all, (c) => c.measures.some((m) => m.verdict === "worse")),
    ...MEASURE_IDS.map(told),
  );
}
