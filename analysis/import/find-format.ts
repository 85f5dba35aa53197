import { findUnit } from "../../shared/units/unit-table";
import { cellKind } from "./cell-kind";
import { findBlankSeparator } from "./fixed-width";
import { withoutLabel } from "./labelled-cells";
import { lineFormOf, withoutForm } from "./line-form";
import type { NumberFormat } from "./number-format";
import { type CellFormat, endsInsideQuotes, type Separator, splitRow } from "./row-cells";
import type { TextLine } from "./survey";

/** A row of the file: one line, or several where quotes hold line ends. */
export type TextRow = { readonly line: number; readonly text: string; readonly cells: readonly string[] };

/** Characters; a longer line is no row of a table. */
export const LONGEST_ROW = 64 * 1024;
const MOST_LINES_IN_A_ROW = 100;
const CHARACTERS = [",", ";", "\t", "|", "^", "~", "\u001f", "¦", "!"] as const;

/** Lines as rows of cells. A quote that is not closed within a hundred lines closes nothing: its line stands alone. */
export function splitRows(lines: readonly TextLine[], format: CellFormat): TextRow[] {
  const rows: TextRow[] = [];
  let unclosed = 0;
  for (let i = 0; i < lines.length; i++) {
    let { text } = lines[i];
    const { line } = lines[i];
    if (unclosed < 8 && endsInsideQuotes(text, format)) {
      const last = closingLine(lines, i, format);
      if (last === null) unclosed++;
      else {
        text = lines
          .slice(i, last + 1)
          .map((part) => part.text)
          .join("\n");
        i = last;
      }
    }
    rows.push({ line, text, cells: text.length > LONGEST_ROW ? [text.slice(0, 400)] : splitRow(text, format) });
  }
  return rows;
}

function closingLine(lines: readonly TextLine[], from: number, format: CellFormat): number | null {
  let text = lines[from].text;
  for (let i = from + 1; i < Math.min(lines.length, from + MOST_LINES_IN_A_ROW); i++) {
    text += `\n${lines[i].text}`;
    if (text.length > LONGEST_ROW) return null;
    if (!endsInsideQuotes(text, format)) return i;
  }
  return null;
}

type Candidate = { readonly format: CellFormat; readonly score: number };

const LOOSE_NUMBERS: readonly NumberFormat[] = [
  { decimal: ".", thousands: "," },
  { decimal: ",", thousands: "." },
  { decimal: ".", thousands: "'" },
  { decimal: ",", thousands: "'" },
  { decimal: ",", thousands: " " },
  { decimal: ".", thousands: " " },
];

/**
 * Delimiter and quote by which reading gives most rows of one shape whose cells are numbers, times or blanks. Runs of spaces are taken only
 * where they do clearly better than any character, since most stamps hold a space.
 */
export function findCellFormat(lines: readonly TextLine[]): CellFormat {
  const declared = /^\s*"?sep=(.)"?[,;\t]*\s*$/i.exec(lines[0]?.text ?? "");
  if (declared !== null) return { separator: { kind: "character", character: declared[1] }, quote: findQuote(lines) };
  const sample = spread(lines.filter(({ text }) => text.trim() !== "" && text.length < LONGEST_ROW));
  const quote = findQuote(sample);
  const characters = CHARACTERS.map((character): Separator => ({ kind: "character", character }));
  const candidates = characters.map((separator) => candidate(sample, { separator, quote }));
  // Who sets tabs does not part cells by blanks.
  const tabbed = sample.filter(({ text }) => text.includes("\t")).length * 2 > sample.length;
  candidates.push(candidate(sample, { separator: { kind: "spaces", least: 1, stamp: null }, quote }, tabbed ? 0.5 : 0.85));
  let best = candidates[0];
  for (const other of candidates) if (other.score > best.score * 1.02) best = other;
  const texts = sample.map(({ text }) => text);
  const { separator } = best.format;
  const form = lineFormOf(texts, best.score === 0, separator.kind === "character" ? separator.character : null);
  const plain = form === null ? null : findCellFormat(sample.map(({ line, text }) => ({ line, text: withoutForm(text, form) })));
  if (form !== null && plain !== null && plain.form === undefined) return { ...plain, form };
  if (best.format.separator.kind === "spaces" && isOneColumn(sample)) return { separator: { kind: "character", character: "\t" }, quote };
  if (separator.kind === "character" && separator.character === "\t" && hasRunsOfTabs(texts))
    return { separator: { kind: "spaces", least: 2, stamp: null }, quote };
  return best.format.separator.kind === "spaces" ? { separator: findBlankSeparator(texts), quote } : best.format;
}

/** Headings and rows hold the same number of words, but more or fewer tabs between them: every run of tabs parts two cells. */
function hasRunsOfTabs(texts: readonly string[]): boolean {
  const rows = texts.map((text) => text.split("\t")).filter((cells) => cells.filter((cell) => cell.trim() !== "").length > 1);
  const filled = new Set(rows.map((cells) => cells.filter((cell) => cell.trim() !== "").length));
  return filled.size === 1 && new Set(rows.map((cells) => cells.length)).size > 1;
}

/** Lines of one word each, or of a number with its unit, as under a start and an interval: blanks part the words of the lines above them, no cells. */
function isOneColumn(sample: readonly TextLine[]): boolean {
  const lower = sample.slice(sample.length >> 1);
  const isOne = (text: string) => !/\s/.test(text) || findUnit(/^[-+]?\d[\d.,]*\s+(\S+)$/.exec(text)?.[1] ?? "") !== null;
  return lower.filter(({ text }) => isOne(text.trim())).length * 2 > lower.length;
}

/** Rows of several lines need those that follow them. */
const FOLLOWING = 160;

/** The first lines, where a short log may be all there is, and some from further on, where there are surely data. */
function spread(lines: readonly TextLine[]): readonly TextLine[] {
  const open = lines.filter(({ text }) => text.split('"').length % 2 === 0).length;
  if (lines.length <= FOLLOWING || open * 4 > lines.length) return lines.slice(0, FOLLOWING);
  const stride = Math.floor((lines.length - 60) / 100);
  return lines.filter((_, i) => i < 60 || (i - 60) % stride === 0);
}

function candidate(sample: readonly TextLine[], format: CellFormat, weight = 1): Candidate {
  const rows =
    sample.length <= FOLLOWING ? splitRows(sample, format).map(({ cells }) => cells) : sample.map(({ text }) => splitRow(text, format));
  return { format, score: weight * shapeScore(rows) };
}

/** Rows of the commonest shape, each counted by its share of cells that are numbers, times or blanks. */
export function shapeScore(rows: readonly (readonly string[])[]): number {
  const byCount = new Map<number, number>();
  for (const cells of rows) {
    const count = cells.length;
    if (count < 2) continue;
    byCount.set(count, (byCount.get(count) ?? 0) + typedShare(cells, count));
  }
  let best = 0;
  let all = 0;
  for (const score of byCount.values()) {
    best = Math.max(best, score);
    all += score;
  }
  return best + 0.3 * (all - best);
}

function typedShare(cells: readonly string[], count: number): number {
  const tally = { number: 0, time: 0, missing: 0, text: 0 };
  for (let i = 0; i < count; i++) {
    const kind = looseKind(cells[i]);
    if (kind === "text" && holdsCells(cells[i])) return 0;
    tally[kind]++;
  }
  const filled = count - tally.missing;
  const typed = tally.number + tally.time;
  // Lines of a preamble hold a number now and then; they are no evidence of a table. A time beside a number is, whatever words stand with them.
  const isRow = typed * 2 >= filled || (tally.time > 0 && tally.number > 0);
  return filled === 0 || !isRow ? 0 : typed / filled;
}

/** A text that falls into times and numbers at another delimiter ("06:00:00,a,49.0") was cut at the wrong one. */
function holdsCells(cell: string): boolean {
  if (!/\d[^\d]*[,;\t|]|[,;\t|][^\d]*\d/.test(cell) || cell.length > 400) return false;
  return [",", ";", "\t", "|"].some((mark) => {
    const parts = cell.split(mark).map((part) => part.trim());
    return (
      parts.length > 1 &&
      parts.every((part) => part.length < 60) &&
      parts.filter((part) => ["number", "time"].includes(looseKind(part))).length > 1
    );
  });
}

/** Digits with at most one mark are a number in one of the forms. */
const ONE_MARK = /^[+-]?\d{1,25}(?:[.,]\d{1,25})?$/;

function looseKind(written: string): ReturnType<typeof cellKind> {
  if (ONE_MARK.test(written)) return "number";
  const cell = withoutLabel(written);
  let kind: ReturnType<typeof cellKind> = "text";
  for (const format of LOOSE_NUMBERS) {
    kind = cellKind(cell, format);
    if (kind !== "text") return kind;
  }
  return kind;
}

/** A single quote only where cells are wrapped in it. */
function findQuote(lines: readonly TextLine[]): '"' | "'" {
  const wrapped = lines.filter(({ text }) => /(?:^|[,;\t|])\s*'[^',;]*'\s*(?:[,;\t|]|$)/.test(text)).length;
  return wrapped > lines.length / 2 ? "'" : '"';
}
