import { foldWord } from "./clock/calendar-words";

/** What a line beside the table may speak of that changes values or instants. */
export type StatementKind = "scale" | "offset" | "zone" | "missing" | "pulse" | "start";

/**
 * Stems by which a line shows what it speaks of, folded, in seven languages. They decide nothing: a line that has one of them and a number is either
 * understood by the reader of its kind, or said and asked. Common practice, no source.
 */
const STEMS: Readonly<Record<StatementKind, RegExp>> = {
  scale:
    /\b(?:scal(?:e|ed|ing|ar|ato)|skal|massstab|echelle|escala|schaal|geschaald|fa[ck]t(?:or|eur|oor)|fattor|fator|gain|verstark|guadagn|gananci|ganho|multipl|moltiplic|vermenigvuld|divide|dividi|divise|dividido|diviso|gedeeld|geteilt|teilen|teile|delen|tenths|hundredths|zehntel|hundertstel|decimals|reduc|reduktion|counts? per|weight(?:ing)? of)/,
  offset: /\b(?:offset|versatz|verschiebung|shift|bias|nullpunkt|zero (?:point|offset)|tare|tara)/,
  zone: /\b(?:utc|gmt|greenwich|time ?zone|zeitzone|zeitversch|fuseau|huso|fuso|tijdzone|dst|sommerzeit|summer time)/,
  missing:
    /\b(?:missing|no ?data|null|fill|invalid|bad|absent|ausent|assent|fehlwert|fehlend|fehler|ungultig|manqua|sans donn|faltant|sin dato|sem dado|mancant|falta|senza dat|ontbrek|geen (?:data|meting)|error (?:code|value)|sentinel|placeholder|ersatzwert|keine daten|no[- ](?:value|reading)|not available)/,
  pulse: /puls|impul|\bk[- ]?fa[ck]t/,
  start: /\b(?:start|begin|beginn|anfang|debut|inicio|inizio|comienzo|aanvang|avvio|epoch|origin|nullzeit|zero time)/,
};
/** Words that make something else of a stem: the range of a sensor, the factor of a motor, a count of the rows that fail, a start of the pump. */
const OTHERWISE: Partial<Readonly<Record<StatementKind, RegExp>>> = {
  scale:
    /full ?scale|fondo scala|pleine echelle|fondo de escala|power factor|leistungsfaktor|facteur de puissance|factor de potencia|fator de potencia|cos ?phi|k[- ]?fa[ck]|puls|impul/,
  offset: /utc|gmt|zone|zeit|zona|fuso|huso|fuseau|tijd/,
  // "Missing samples: 0" counts rows; no count is negative
  missing:
    /^(?!.*[\s:=;,]-\d).*\b(?:samples|records|rows|readings|points|blocks|count|number of|anzahl|zeilen|messungen|nombre|lignes|numero|filas|righe|linhas|aantal|rijen)\b/,
};

const NUMBER = /(?<![\p{L}\d.,:/])[-+\u2212]?\d+(?:[.,]\d+)?(?:e[-+]?\d+)?(?![\d:/]|[.,]\d)/giu;
/** A start is a date, a clock or a count of seconds; "Start 2.8 bar" is a pump's. */
const INSTANT = /\d{1,4}[-/.:]\d{1,2}[-/.:h]\d{1,4}|\d{1,2}:\d{2}|\d{8,}|\b(?:19|20)\d{2}\b/;

/** The one number that stands beside words of a kind; null where the line has none of them, none or several numbers, or speaks of something else. */
export function numberSaid(kind: StatementKind, line: string): number | null {
  if (!speaksOf(kind, line)) return null;
  const numbers = line.match(NUMBER) ?? [];
  return numbers.length === 1 ? Number(numbers[0].replace(",", ".").replace("\u2212", "-")) : null;
}

/** Whether a line a person would read has a number beside words of a kind. */
export function speaksOf(kind: StatementKind, line: string): boolean {
  if (line.length > 200) return false;
  const folded = foldWord(line).replace(/[_"]+/g, " ");
  return STEMS[kind].test(folded) && OTHERWISE[kind]?.test(folded) !== true && (kind === "start" ? INSTANT : /\d/).test(line);
}

/** The first line that has one number beside words of a kind and that its reader did not understand. */
export function firstUnread(
  kind: StatementKind,
  lines: readonly string[],
  isRead: (line: string) => boolean,
): { readonly line: string; readonly number: number } | null {
  for (const line of lines) {
    const number = numberSaid(kind, line);
    if (number !== null && !isRead(line)) return { line: line.trim(), number };
  }
  return null;
}
