import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { SUMMARY_WORDS } from "../../shared/wording/summary";
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
  return [
    SUMMARY_WORDS.record,
    ...record.files.map((file) => `  ${SUMMARY_WORDS.file(file.name, file.bytes)}`),
    `  ${SUMMARY_WORDS.span(record)}`,
    ...record.channels.map((channel) => wrap(SUMMARY_WORDS.channel(channel), "  - ")),
    ...record.notes.map((note) => wrap(note.text, `  ${SUMMARY_WORDS.note}`)),
    ...record.faults.slice(0, 10).map((fault) => wrap(SUMMARY_WORDS.fault(fault), `  ${SUMMARY_WORDS.faultMark}`)),
    ...(record.faults.length > 10 ? [`  ${SUMMARY_WORDS.moreFaults(record.faults.length - 10)}`] : []),
  ];
}

function questionLines({ record }: FindingsDocument): string[] {
  if (record.questions.length === 0) return [];
  return [SUMMARY_WORDS.questions, ...record.questions.map((q) => wrap(SUMMARY_WORDS.question(q), "  ? "))];
}

function findingLines({ findings }: FindingsDocument): string[] {
  if (findings.length === 0) return [SUMMARY_WORDS.findings, `  ${SUMMARY_WORDS.none}`];
  return [
    SUMMARY_WORDS.findings,
    ...findings.flatMap((f) => [wrap(f.title, f.overLimit === true ? "  ! " : "  - "), ...(f.text === "" ? [] : [wrap(f.text, "    ")])]),
  ];
}

function causeLines({ causes }: FindingsDocument): string[] {
  const likely = causes.filter((cause, i) => i < 3 && cause.confidence >= 0.05);
  if (likely.length === 0) return [];
  return [
    SUMMARY_WORDS.causes,
    ...likely.flatMap((cause) => [
      `  ${Math.round(cause.confidence * 100)} %  ${cause.name}`,
      ...cause.for.map((reason) => wrap(reason, `        ${SUMMARY_WORDS.for}`)),
      ...cause.against.map((reason) => wrap(reason, `        ${SUMMARY_WORDS.against}`)),
      ...(cause.toSeparate === "" ? [] : [wrap(cause.toSeparate, `        ${SUMMARY_WORDS.toBeSurer}`)]),
    ]),
  ];
}

function adviceLines({ advice }: FindingsDocument): string[] {
  if (advice.length === 0) return [];
  return [
    SUMMARY_WORDS.nextVisit,
    ...advice.flatMap((step, i) => [
      wrap(step.do, `  ${i + 1}. `),
      ...(step.amount === null ? [] : [wrap(step.amount, `     ${SUMMARY_WORDS.amount}`)]),
      wrap(step.because, `     ${SUMMARY_WORDS.because}`),
      ...(step.expect === null ? [] : [wrap(step.expect, `     ${SUMMARY_WORDS.expect}`)]),
      ...step.cautions.map((caution) => wrap(caution, `     ${SUMMARY_WORDS.caution}`)),
      ...(step.sources.length === 0 ? [] : [wrap(step.sources.join("; "), `     ${SUMMARY_WORDS.source}`)]),
    ]),
  ];
}

function limitLines({ cannotTell }: FindingsDocument): string[] {
  return cannotTell.length === 0 ? [] : [SUMMARY_WORDS.limits, ...cannotTell.map((c) => wrap(c.text, "  - "))];
}

function failureLines({ failures }: FindingsDocument): string[] {
  return failures.length === 0 ? [] : [SUMMARY_WORDS.failures, ...failures.map(({ text }) => wrap(text, "  ! "))];
}
