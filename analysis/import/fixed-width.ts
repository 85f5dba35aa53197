import { findUnit } from "../../shared/units/unit-table";
import { looksLikeTime } from "./cell-kind";
import type { Separator } from "./row-cells";

type Span = { from: number; to: number };

/**
 * How lines whose cells stand apart by blanks are cut: by place where the lines are aligned (then a blank cell stays a cell of its own), else by
 * runs of blanks. A date and a time of day under one heading are one cell.
 */
export function findBlankSeparator(lines: readonly string[]): Separator {
  const data = dataLines(lines);
  const words = data.map((line) => line.trim().split(/\s+/));
  const commonest = modalCount(words.map((cells) => cells.length));
  const rows = words.filter((cells) => cells.length === commonest);
  const heading = headingAbove(lines, data[0]);
  const ruled = ruledColumns(lines);
  if (ruled !== null) return { kind: "fixed-width", starts: ruled };
  const apart = widelyApart(data, heading);
  if (apart !== null && apart.length < commonest)
    return isAligned(apart)
      ? { kind: "fixed-width", starts: startsOf(apart, data, null, heading) }
      : { kind: "spaces", least: 2, stamp: null };
  const stamp = stampWords(rows, heading, commonest);
  const named = heading.trim().split(/\s+/).length === commonest - (stamp === null ? 0 : stamp.count - 1);
  const spans = lines.some((line) => line.includes("\t")) ? [] : columnSpans(data);
  const ragged = rows.length < words.length;
  if (spans.length >= 2 && spans.length >= commonest && (ragged || (isPadded(data) && !named)))
    return { kind: "fixed-width", starts: startsOf(spans, data, stamp, heading) };
  return { kind: "spaces", least: 1, stamp };
}

/** Two blanks or more between all columns, single ones within a stamp or a name: as many cells in every line. The places that each holds, or null. */
function widelyApart(data: readonly string[], heading: string): readonly Span[] | null {
  const cells = data.map((line) => [...line.matchAll(/\S+(?: \S+)*/g)]);
  const count = heading.trim().split(/ {2,}/).length;
  if (count < 2 || !cells.every((row) => row.length === count)) return null;
  return Array.from({ length: count }, (_, k) => ({
    from: cells.reduce((least, row) => Math.min(least, row[k].index), Number.POSITIVE_INFINITY),
    to: cells.reduce((most, row) => Math.max(most, row[k].index + row[k][0].length), 0),
  }));
}

const isAligned = (spans: readonly Span[]) => spans.every(({ from }, k) => k === 0 || spans[k - 1].to < from);

/** Lines with more digits than letters: the data. */
function dataLines(lines: readonly string[]): string[] {
  return lines.filter(isData).slice(-200);
}

function isData(line: string): boolean {
  const digits = line.replace(/\D/g, "").length;
  return digits > 2 && digits >= line.replace(/[^\p{L}]/gu, "").length && /\S\s+\S/.test(line.trim());
}

function modalCount(counts: readonly number[]): number {
  const tally = new Map<number, number>();
  for (const count of counts) tally.set(count, (tally.get(count) ?? 0) + 1);
  return [...tally].reduce((best, entry) => (entry[1] > best[1] ? entry : best), [0, 0])[0];
}

/** Units alone stand between the names and the data. */
const isUnits = (line: string) =>
  line
    .trim()
    .split(/\s+/)
    .every((word) => findUnit(word.replace(/^[[(]|[\])]$/g, "")) !== null);

function headingAbove(lines: readonly string[], firstData: string | undefined): string {
  const at = firstData === undefined ? -1 : lines.indexOf(firstData);
  for (let i = at - 1; i >= 0; i--) if (/\p{L}/u.test(lines[i]) && !isData(lines[i]) && !isUnits(lines[i])) return lines[i];
  return "";
}

/** Words that together are one stamp: a date, a time of day behind it, am or pm; where the headings name them once. */
function stampWords(rows: readonly (readonly string[])[], heading: string, count: number): { at: number; count: number } | null {
  const [first] = rows;
  if (first === undefined || heading === "") return null;
  const at = first.findIndex((_, i) => rows.every((row) => looksLikeTime(row[i]) && !row[i].includes(":")));
  if (at < 0 || !rows.every((row) => /^\d{1,2}:\d{2}/.test(row[at + 1] ?? ""))) return null;
  const half = rows.every((row) => /^[ap]\.?m\.?$/i.test(row[at + 2] ?? "")) ? 1 : 0;
  const loose = heading.trim().split(/\s+/).length;
  const tight = heading.trim().split(/\s{2,}/).length;
  const bracketed = heading
    .trim()
    .replace(/\s+(?=[[(])/g, "")
    .split(/\s+/).length;
  const separate = [loose, tight, bracketed].includes(count - half);
  if (separate) return half === 1 ? { at: at + 1, count: 2 } : null;
  return { at, count: 2 + half };
}

/** A ruling under the headings ("-------  -----") shows the columns by itself. */
function ruledColumns(lines: readonly string[]): number[] | null {
  const ruling = lines.find((line) => /^\s*[-=]{2,}(?:\s+[-=]{2,})+\s*$/.test(line));
  return ruling === undefined ? null : [...ruling.matchAll(/\S+/g)].map((dashes, i) => (i === 0 ? 0 : dashes.index));
}

/** Places that hold a character in some line, as runs; only what all lines leave blank parts two columns. */
function columnSpans(data: readonly string[]): Span[] {
  const width = data.reduce((widest, line) => Math.max(widest, line.length), 0);
  if (width > 2000) return [];
  const used = new Uint8Array(width);
  for (const line of data) for (let i = 0; i < line.length; i++) if (line[i] !== " ") used[i] = 1;
  const spans: Span[] = [];
  for (let i = 0; i < width; i++) {
    if (used[i] === 0) continue;
    const last = spans[spans.length - 1];
    if (last !== undefined && last.to === i) last.to = i + 1;
    else spans.push({ from: i, to: i + 1 });
  }
  return spans;
}

/** Where in the gap between two columns the heading of the right one begins: behind the widest blank of the heading line there. */
function headingStart(heading: string, from: number, to: number): number {
  let best = from;
  let widest = 1;
  for (let i = from; i <= to; i++) {
    let blank = 0;
    while (i - 1 - blank >= 0 && heading[i - 1 - blank] === " ") blank++;
    if ((heading[i] ?? " ") !== " " && blank > widest) {
      widest = blank;
      best = i;
    }
  }
  return best;
}

const isPadded = (data: readonly string[]) => data.some((line) => /\S {2,}\S/.test(line) || line.startsWith(" "));

/**
 * Where columns begin: behind the one before where that ends at one place (numbers set to the right may grow to the left), at their own first
 * place where the one before is set to the left.
 */
function startsOf(spans: readonly Span[], data: readonly string[], stamp: { at: number; count: number } | null, heading: string): number[] {
  const starts: number[] = [];
  for (let i = 0; i < spans.length; i++) {
    if (i === 0) starts.push(0);
    else if (stamp !== null && i > stamp.at && i < stamp.at + stamp.count) continue;
    else {
      const before = spans[i - 1];
      const setLeft = data.some(
        (line) => line.length >= before.to && line[before.to - 1] === " " && line.slice(before.from, before.to).trim() !== "",
      );
      const ownLeft = data.every(
        (line) => line.length <= spans[i].from || line[spans[i].from] !== " " || line.slice(spans[i].from, spans[i].to).trim() === "",
      );
      starts.push(setLeft && ownLeft ? spans[i].from : headingStart(heading, before.to, spans[i].from));
    }
  }
  return starts;
}
