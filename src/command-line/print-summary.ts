import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { forTerminal } from "./for-terminal";

const WIDTH = 100;

/** A findings document as a page of text that can be read top to bottom. */
export function printSummary(document: FindingsDocument): string {
  const sections = [
    recordLines(document),
    questionLines(document),
    findingLines(document),
    causeLines(document),
    adviceLines(document),
    limitLines(document),
    failureLines(document),
  ];
  const text = `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join("\n"))
    .join("\n\n")}\n`;
  return forTerminal(text);
}

/** Breaks a sentence into lines; the following lines stand under the text, not under the mark. */
function wrap(text: string, first: string, rest = " ".repeat(first.length)): string {
  const lines: string[] = [];
  let line = first;
  for (const word of text.split(" ")) {
    if (line.length + word.length > WIDTH && line.trim() !== first.trim()) {
      lines.push(line.trimEnd());
      line = rest;
    }
    line += `${word} `;
  }
  return [...lines, line.trimEnd()].join("\n");
}

function recordLines({ record }: FindingsDocument): string[] {
  const rejected =
    record.rows.rejected === 0
      ? ""
      : `, ${record.rows.rejected} rejected (first: line ${record.rejects[0]?.row}, ${record.rejects[0]?.why})`;
  return [
    "Record",
    ...record.files.map((file) => `  ${file.name}, ${file.bytes} bytes`),
    `  ${record.from} to ${record.to}${record.clock === "elapsed" ? " s elapsed" : ""}, ${record.rows.accepted} rows${rejected}`,
    ...record.channels.map((c) =>
      wrap(
        `${c.heading}: ${c.role}${c.unit === null ? "" : `, ${c.unit}`}, every ${c.intervalS ?? "?"} s${c.missing === 0 ? "" : `, ${c.missing} missing`}`,
        "  - ",
      ),
    ),
    ...record.notes.map((note) => wrap(note.text, "  note: ")),
    ...record.faults
      .slice(0, 10)
      .map((fault) =>
        wrap(
          `${fault.kind}${fault.channel === null ? "" : ` of ${fault.channel}`}, ${fault.from} to ${fault.to}: ${fault.note}`,
          "  fault: ",
        ),
      ),
    ...(record.faults.length > 10 ? [`  and ${record.faults.length - 10} more faults (see --json)`] : []),
  ];
}

function questionLines({ record }: FindingsDocument): string[] {
  if (record.questions.length === 0) return [];
  return [
    "Questions",
    ...record.questions.map((q) =>
      wrap(
        `${q.text} Assumed: ${q.assumed}. Change it with --answer "${q.id}=..."${q.options.length === 0 ? "" : ` (${q.options.join(" | ")})`}`,
        "  ? ",
      ),
    ),
  ];
}

function findingLines({ findings }: FindingsDocument): string[] {
  if (findings.length === 0) return ["Findings", "  None."];
  return [
    "Findings",
    ...findings.flatMap((f) => [wrap(f.title, f.overLimit === true ? "  ! " : "  - "), ...(f.text === "" ? [] : [wrap(f.text, "    ")])]),
  ];
}

function causeLines({ causes }: FindingsDocument): string[] {
  const likely = causes.filter((cause, i) => i < 3 && cause.confidence >= 0.05);
  if (likely.length === 0) return [];
  return [
    "Causes, likeliest first",
    ...likely.flatMap((cause) => [
      `  ${Math.round(cause.confidence * 100)} %  ${cause.name}`,
      ...cause.for.map((reason) => wrap(reason, "        for: ")),
      ...cause.against.map((reason) => wrap(reason, "        against: ")),
      ...(cause.toSeparate === "" ? [] : [wrap(cause.toSeparate, "        to be surer: ")]),
    ]),
  ];
}

function adviceLines({ advice }: FindingsDocument): string[] {
  if (advice.length === 0) return [];
  return [
    "Next visit",
    ...advice.flatMap((step, i) => [
      wrap(step.do, `  ${i + 1}. `),
      ...(step.amount === null ? [] : [wrap(step.amount, "     amount: ")]),
      wrap(step.because, "     because: "),
      ...(step.expect === null ? [] : [wrap(step.expect, "     expect: ")]),
      ...step.cautions.map((caution) => wrap(caution, "     CAUTION: ")),
      ...(step.sources.length === 0 ? [] : [wrap(step.sources.join("; "), "     source: ")]),
    ]),
  ];
}

function limitLines({ cannotTell }: FindingsDocument): string[] {
  return cannotTell.length === 0 ? [] : ["What this log cannot show", ...cannotTell.map((c) => wrap(c.text, "  - "))];
}

function failureLines({ failures }: FindingsDocument): string[] {
  return failures.length === 0 ? [] : ["Where this program failed", ...failures.map(({ text }) => wrap(text, "  ! "))];
}
