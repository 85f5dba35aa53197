import type { FindingsDocument } from "../schemas/findings-document";

type Record = FindingsDocument["record"];

/** The summary of the command line: numbers SI, as machines write them. */
export const SUMMARY_WORDS = {
  record: "Record",
  file: (name: string, bytes: number) => `${name}, ${bytes} bytes`,
  span: ({ from, to, clock, rows, rejects }: Record) => {
    const rejected = rows.rejected === 0 ? "" : `, ${rows.rejected} rejected (first: line ${rejects[0]?.row}, ${rejects[0]?.why})`;
    return `${from} to ${to}${clock === "elapsed" ? " s elapsed" : ""}, ${rows.accepted} rows${rejected}`;
  },
  channel: (c: Record["channels"][number]) =>
    `${c.heading}: ${c.role}${c.unit === null ? "" : `, ${c.unit}`}, every ${c.intervalS ?? "?"} s${c.missing === 0 ? "" : `, ${c.missing} missing`}`,
  note: "note: ",
  fault: (fault: Record["faults"][number]) =>
    `${fault.kind}${fault.channel === null ? "" : ` of ${fault.channel}`}, ${fault.from} to ${fault.to}: ${fault.note}`,
  faultMark: "fault: ",
  moreFaults: (count: number) => `and ${count} more faults (see --json)`,
  questions: "Questions",
  question: (q: Record["questions"][number]) =>
    `${q.text} Assumed: ${q.assumed}. Change it with --answer "${q.id}=..."${q.options.length === 0 ? "" : ` (${q.options.join(" | ")})`}`,
  findings: "Findings",
  none: "None.",
  causes: "Causes, likeliest first",
  for: "for: ",
  against: "against: ",
  toBeSurer: "to be surer: ",
  nextVisit: "Next visit",
  amount: "amount: ",
  because: "because: ",
  expect: "expect: ",
  caution: "CAUTION: ",
  source: "source: ",
  limits: "What this log cannot show",
  failures: "Where this program failed",
} as const;

/** What the command line prints of a prediction. */
export const PREDICTION_WORDS = {
  head: (changes: readonly string[]) => `What if: ${changes.length === 0 ? "nothing is changed" : changes.join("; ")}`,
  columns: ["log", "model now", "predicted"],
  notRun: "The model could not be run against the log.",
  explains: (percent: number) => `The fitted model explains ${percent} % of the pressure's variance, one pump cycle at a time.`,
  interval: (low: string, high: string) => `(${low} to ${high})`,
  traceHeadings: ["Elapsed (s)", "Recorded (Pa)", "Model now (Pa)", "Predicted (Pa)"],
} as const;
