import { readScaledUnit } from "../../../shared/units/scaled-unit";
import { findUnit } from "../../../shared/units/unit-table";
import type { HeadTable } from "../head-table";

export const RULING = /^[\s\-=_+*~.|,;:]*$/;

/** Words over the statistics that some programs put between headings and data. */
const STATISTIC =
  /^(?:min(?:imum)?|max(?:imum)?|av(?:era)?ge?|mean|median|sum|total|std\.? ?dev\.?|mittel(?:wert)?|durchschnitt|summe|minimo|massimo|m[ií]nimo|m[aá]ximo|medio|somme|suma|soma|somma|som|total[ei]?|totaal|moyenne|moy|media|promedio|média|gemiddelde)\.?:?$/i;
/** Names of types that some programs write under the headings. */
const TYPE_NAME =
  /^(?:date(?:time)?|time(?:stamp)?|float\d*|double|real|decimal|number|numeric|int(?:eger)?\d*|string|str|text|bool(?:ean)?|char|varchar)$/i;

/** A cell that names a statistic of the column, as some programs write it below the rows. */
export const namesStatistic = (cell: string): boolean => STATISTIC.test(cell);

/** A row of statistics ("Min,2.1,0.5") or of the names of types ("datetime,float,float") under the headings, which is neither heading nor data. */
function isAside(cells: readonly string[]): boolean {
  const [first, ...rest] = cells.filter((cell) => cell !== "");
  if (first === undefined || rest.length === 0) return false;
  if (STATISTIC.test(first)) return rest.every((cell) => /^[-+\d.,eE]+$/.test(cell));
  return TYPE_NAME.test(first) && rest.every((cell) => TYPE_NAME.test(cell)) && rest.some((cell) => !namesTime(cell));
}

/** Names of how a logger made one value of many, as some write them under the units. */
const PROCESS = /^(?:avg|average|mean|smp|sample|min|max|tot(?:al)?|sum|std|sd|inst(?:ant)?|mittel(?:wert)?|moy(?:enne)?|media|gem)\.?$/i;

/** A row of such names alone, under a row that gives each of its columns another name already. */
function isProcessRow(head: HeadTable, row: number): boolean {
  const { cells } = head.rows[row];
  const filled = cells.flatMap((cell, i) => (cell === "" ? [] : [i]));
  if (filled.length === 0 || row === 0 || !filled.every((i) => PROCESS.test(cells[i]))) return false;
  const above = head.rows[row - 1].cells;
  const names = filled.map((i) => above[i] ?? "");
  return (
    above.length === cells.length &&
    names.every((name) => name !== "" && !PROCESS.test(name)) &&
    (isUnitsRow(above) || isUnitsUnderNames(head, row - 1) || new Set(names).size === names.length)
  );
}

/** The letters over the columns of a spreadsheet, A first, that somebody exported with the cells. */
function isSheetLetters(cells: readonly string[]): boolean {
  const letters = cells[0] === "" ? cells.slice(1) : cells;
  return letters.length > 1 && letters.every((cell, i) => cell === String.fromCharCode(65 + i));
}

/** Index of the nearest row above `from` that is neither blank nor a ruling ("-----  ----") nor a comment nor one of statistics or types; -1 where there is none. */
export function rowAbove(head: HeadTable, from: number): number {
  for (let i = from - 1; i >= 0; i--) {
    const row = head.rows[i];
    if (RULING.test(row.text) || head.isComment(row) || isAside(row.cells) || isProcessRow(head, i)) continue;
    // right above the data they are all the headings there are
    if (i + 1 < head.firstData && isSheetLetters(row.cells)) continue;
    return i;
  }
  return -1;
}

/** The row of headings: right above the data, or over a line of one word that opens them ("DATA:"). */
export function headingRow(head: HeadTable): number {
  const near = rowAbove(head, head.firstData);
  if (near < 0 || couldBeHeadings(head, near) || filledCells(head, near).length !== 1) return near;
  const next = rowAbove(head, near);
  return couldBeHeadings(head, next) && head.rows[next].cells.some(namesTime) ? next : near;
}

/** Cells of a row without the blank ones at its end. */
export function filledCells(head: HeadTable, row: number): readonly string[] {
  const { cells } = head.rows[row];
  let count = cells.length;
  while (count > 0 && cells[count - 1] === "") count--;
  return cells.slice(0, count);
}

/** A row that could head the columns: about as wide as the data, and mostly words. */
export function couldBeHeadings(head: HeadTable, row: number): boolean {
  if (row < 0) return false;
  const cells = filledCells(head, row);
  const { count } = head.signature;
  if (cells.length === 0) return false;
  // words set apart by tabs over cells set apart by blanks
  if (cells.length > count + 1 && head.rows[row].text.split("\t").length === count) return false;
  if (cells.length > count + 1)
    return cells.length <= 2 * count + 8 && namesTime(cells[0]) && cells.every((cell) => !/^[\d.,]+$/.test(cell));
  const named = cells.filter((cell) => cell !== "").length;
  if (usedColumns(head) === 1) return named === 1 && !/[:=]/.test(cells[0]);
  return named >= 2 ? cells.length >= Math.max(2, usedColumns(head) - 1) || named * 2 >= count : false;
}

/** Columns of the data that are ever filled. */
export const usedColumns = (head: HeadTable) => head.signature.kinds.filter((kind) => kind !== "missing").length;

const BRACKETED = /^[[(<{]\s*(.*?)\s*[\])>}]$/;
const TIME_FORMAT = /^(?:[ymdhs\s:/.,_-]|hh24|mi|ss+|am\/pm|tt|jjjj|aaaa|uhr|utc|gmt)+$/i;
const NO_UNIT = new Set([
  "",
  "-",
  "--",
  "---",
  "—",
  "n/a",
  "none",
  "unit",
  "units",
  "einheit",
  "einheiten",
  "unité",
  "unités",
  "unidad",
  "unidade",
  "unità",
  "eenheid",
  "on/off",
  "0/1",
  "bool",
  "text",
  "counts",
  "s",
  "sec",
  "min",
  "h",
  "ms",
]);

/** What a pulse stands for ("L/pulse", "imp/m3") or the pulse itself: no unit of measure, but nothing else than a unit. */
const PULSE_UNIT =
  /^(?:(?:m?l|m3|m³|(?:us |imp )?gal|ft3|ft³)\s*\/\s*)?(?:pulses?|puls|imp|impulse?|impulsos?|impulsions?|impulsi|pulsen|counts?)(?:\s*\/\s*(?:l|m3|m³|gal|ft3|ft³))?$/i;

/** A row that holds units alone: each filled cell is a unit, bare or in brackets, or a pattern of a date; at least one is a unit. */
export function isUnitsRow(cells: readonly string[]): boolean {
  let units = 0;
  let others = 0;
  for (const cell of cells) {
    const bracketed = BRACKETED.exec(cell);
    const text = bracketed?.[1] ?? cell;
    if (text !== "" && (findUnit(text) !== null || readScaledUnit(text) !== null || (text.includes("/") && PULSE_UNIT.test(text)))) units++;
    else if (PULSE_UNIT.test(text)) continue;
    else if (!NO_UNIT.has(text.toLowerCase()) && !TIME_FORMAT.test(text) && bracketed === null) others++;
  }
  return units > 0 && others * 3 <= units;
}

/** Units in some columns and short marks of no quantity in the others ("TS,RN,psi,gpm"), under a row of names as wide that names the time. */
export function isUnitsUnderNames(head: HeadTable, row: number): boolean {
  const { cells } = head.rows[row];
  const above = head.rows[row - 1]?.cells ?? [];
  if (above.length !== cells.length || !above.every((cell) => cell !== "") || !above.some(namesTime) || isUnitsRow(above)) return false;
  const marked = cells.filter((cell) => cell !== "");
  const units = marked.filter((cell) => cell.length > 1 && findUnit(cell) !== null).length;
  return units > 0 && units * 2 >= marked.length && marked.every((cell) => findUnit(cell) !== null || /^\p{Lu}{1,3}$/u.test(cell));
}

/** Words for time and date in the languages of the headings; common practice, no source. */
const TIME_WORD =
  /\b(?:time|date|datetime|timestamp|stamp|elapsed|seconds|minutes|zeit|datum|uhrzeit|zeitstempel|heure|temps|horodatage|jour|fecha|hora|tiempo|data|ora|tempo|tijd|tijdstip|datetime_utc|when|utc|clock)\b|zeit|time|date/i;

export const namesTime = (cell: string): boolean => TIME_WORD.test(cell);

/** The cells of a comment line without its mark; a mark in a cell of its own, one more than the data have, goes as a whole. */
export function splitComment(row: { readonly cells: readonly string[] }, count: number): string[] {
  const cells = row.cells.map((cell, i) => (i === 0 ? cell.replace(/^(?:#+|\/\/+|%|!|\*+|;+|--|REM\b)\s*/i, "") : cell));
  return cells[0] === "" && cells.length > count ? cells.slice(1) : cells;
}
