import { foldWord, weekdayOf } from "./calendar-words";
import { readInterval, timeUnit } from "./interval-text";
import type { DateOrder, Stamp } from "./stamp";
import { readStamp } from "./stamp-text";
import { findZone, zoneWords } from "./zone-text";

/** A stamp of the preamble and what its line says it is. */
export type ToldStamp = {
  readonly text: string;
  readonly role: "start" | "end" | "written" | "plain";
  readonly hasDate: boolean;
  readonly hasTime: boolean;
  /** The day of the week named right before it, 0 for Monday; left out where none is. */
  readonly weekday?: number;
};

/** What the lines above the table say of the clock. */
export type PreambleClock = {
  readonly stamps: readonly ToldStamp[];
  /** s */
  readonly interval: number | null;
  readonly zone: string | null;
  /** Words given as the zone that are none the platform knows. */
  readonly unknownZone: string | null;
  /** Where a line or heading spells the form of dates ("dd/mm/yyyy"). */
  readonly order: DateOrder | null;
};

const START =
  /\b(start|started|begin|begins|beginning|beginn|anfang|gestartet|debut|depart|demarrage|inicio|comienzo|arranque|inizio|avvio|aanvang|gestart|first (sample|reading|record)|triggered|commenced|from|von|desde|dal|ab)\b|(start|beginn?)(zeit|datum|time|date|tijd)|\bt0\b/;
const END =
  /\b(end|ended|stop|stopped|ende|fin|final|fine|termino|einde|last (sample|reading|record)|until|bis|jusqu|hasta|ate|tot)\b|(end|stop)(zeit|datum|time|date|tijd)/;
const WRITTEN =
  /\b(export\w*|download\w*|read ?out|ausgelesen|auslesung|created|creation|erstellt|generated|printed|gedruckt|saved|gespeichert|telecharge|cree|descargado|creado|exportado|scaricato|creato|esportato|aangemaakt|report date|firmware|version|installed|serviced)\b/;
/** Dates of the instrument's own life, never of the rows: when it was calibrated, checked, made, bought or put in. Common practice, no source. */
export const OF_INSTRUMENT =
  /\b(calibra\w*|kalibri\w*|gekalibreerd|etalonn\w*|tarat\w*|tarad\w*|geeicht|eichung|ijk\w*|geijkt|aferi\w*|cal|kal|certificat\w*|zertifikat\w*|certificaat|inspect\w*|ispezion\w*|verif\w*|pruf(?:ung|datum)|gepruft|keuring\w*|revision|maintenance|wartung\w*|entretien|mantenimiento|manutenzione|manutencao|onderhoud|service|servicio|servizio|servico|next|nachste\w*|naechste\w*|prochain\w*|proxim\w*|prossim\w*|volgende|warranty|garanti\w*|garanzia|garantia|manufactur\w*|fabric\w*|fabbric\w*|hergestellt|baujahr|produced|purchas\w*|bought|commission\w*|inbetriebnahme|mise en service|puesta en marcha|messa in servizio|einbau\w*|eingebaut|installati\w*|instalac\w*|installazione|valid|gultig|valable|valido)\b/;
/** The beginning of a log that also says at what occasion it was made ("Service visit, logging started"); what a logger itself had begun is another matter. */
const LOG_BEGINS =
  /\b(?:log|logs|logging|record|recording|measuring|measurement|aufzeichnung|messung|enregistrement|mesures?|registro|medicion|medicao|registrazione|misura|meting|opname)\b.{0,20}\b(?:start\w*|begin\w*|began|begonnen|gestartet|beginn|debut\w*|commence\w*|inici\w*|comienz\w*|inizi\w*|avviat\w*|gestart)\b|\b(?:start|beginning|beginn|debut|inicio|inizio|begin) (?:of|der|de|des|del|della|da|van) ?(?:the|la|l|los|het|de)?[ '\u2019]?(?:log|logging|record|recording|measurement|aufzeichnung|messung|enregistrement|mesures?|registro|medicion|medicao|registrazione|misura|meting|opname)\b/;
const OF_ITSELF = /\b(?:calibra|kalibri|etalonn|tarat|warrant|garan|manufact|purchas|hergestellt)/;
const INTERVAL =
  /\b(interval\w*|intervall\w*|intervalo|sampl\w* (rate|period|time|every)|sampling|samples per \w+|readings per \w+|logging (rate|period)|log rate|log every|logged every|record every|scan rate|rate|period|periode|periodo|cadence|pas de temps|abtast\w*|echantillonnage|muestreo|amostragem|campionamento|bemonstering\w*|mess?takt|takt|zyklus|cycle|frequenc\w*|frequenza|frecuencia|every|alle|toutes les|cada|ogni|om de|elke|time ?step|zeitschritt|dt|delta t|ts|t s|passo|paso|pas|schritt|stap|sample time|abtastzeit|1 (?:sample|reading|record|row|step|count|messung|wert|mesure|muestra|amostra|campione|meting))\b|(mess|abtast|log|aufzeichnungs|speicher|sample|meet)-?(intervall?|rate|takt|zyklus|frequenz|period)/;
const ZONE_WORDS = /zone|zona|fuseau|fuso|huso|utc|gmt|tijdzone|zeitverschiebung|\btz\b|clock/;

const MONTH_WORD = "[\\p{L}]{3,10}\\.?";
const DATE = new RegExp(
  `\\d{4}-?W\\d{2}-?\\d|\\d{1,4}[-/.]\\d{1,2}[-/.]\\d{1,4}|\\d{1,2}(?:\\.|st|nd|rd|th|º)?[ -](?:de )?${MONTH_WORD},?[ -](?:de )?\\d{2,4}|${MONTH_WORD} \\d{1,2}(?:st|nd|rd|th)?,? \\d{4}|(?<![\\d.,])(?:19|20)\\d{6}(?:T?\\d{4,6})?(?![\\d.,])`,
  "gu",
);
const TIME = /(?<![\d:.,])\d{1,2}[:h]\d{2}(?::?\d{2}(?:[.,]\d+)?)?(?: ?[ap]\.?m\.?)?(?: ?(?:Z\b|UTC|GMT|CES?T|MES?Z|[+-]\d{2}:?\d{2}))?/i;

/** Reads what preamble lines, and headings and units for the form of dates, say of start, interval, zone and order. */
export function readPreambleClock(preamble: readonly string[], headings: readonly string[]): PreambleClock {
  const stamps: ToldStamp[] = [];
  let interval: number | null = null;
  let zone: string | null = null;
  let unknownZone: string | null = null;
  for (const line of preamble) {
    const folded = foldLine(line);
    const found = stampsOf(line, folded);
    stamps.push(...found);
    if (interval === null && INTERVAL.test(folded)) interval = intervalIn(line, found);
    if (zone === null && unknownZone === null && findZone(line) === null) unknownZone = zoneWords(line);
    if (zone === null && (ZONE_WORDS.test(folded) || found.length > 0)) zone = findZone(line.replace(/[;,\t"=]/g, " "));
  }
  return {
    stamps: joinHalves(stamps),
    interval,
    zone,
    unknownZone: zone === null ? unknownZone : null,
    order: orderOf([...headings, ...preamble]),
  };
}

/** The stamps of one text by itself. */
export const stampsIn = (text: string): readonly ToldStamp[] => stampsOf(text, foldLine(text));

const foldLine = (line: string) => foldWord(line).replace(/[_"=:;,\t()[\]]+/g, " ");

function stampsOf(line: string, folded: string): ToldStamp[] {
  const text = line.replace(/["\t;=]|,(?=\s*\d{1,2}:)/g, " ").replace(/\s+/g, " ");
  const ofInstrument = OF_INSTRUMENT.test(folded) && (OF_ITSELF.test(folded) || !LOG_BEGINS.test(folded));
  const role = WRITTEN.test(folded) || ofInstrument ? "written" : START.test(folded) ? "start" : END.test(folded) ? "end" : "plain";
  const found: ToldStamp[] = [];
  let rest = 0;
  for (const match of text.matchAll(DATE)) {
    if (match.index < rest || !readable(match[0])) continue;
    const after = text.slice(match.index + match[0].length);
    const gap =
      /^(?:T|[ ,_-]*(?:(?:at|um|a|à|às|alle|om|le|-)[ ])?(?:uhr ?)?(?:(?:time|zeit|heure|hora|ora|tijd)[: ]+)?)/iu.exec(after)?.[0] ?? "";
    const time = TIME.exec(after.slice(gap.length));
    const whole = time !== null && time.index === 0 ? `${match[0]} ${time[0]}` : match[0];
    found.push({
      text: whole,
      role: found.length > 0 && role === "start" ? "end" : role,
      hasDate: true,
      hasTime: whole !== match[0] || (match[0].length > 10 && /\d{12}/.test(match[0].replace("T", ""))),
      ...weekdayBefore(text.slice(0, match.index)),
    });
    rest = match.index + match[0].length + gap.length + (time?.index === 0 ? time[0].length : 0);
  }
  const unix = /\b(?:unix|epoch)\b/.test(folded) ? /(?<!\d)1\d{9}(?!\d)/.exec(text) : null;
  if (unix !== null)
    found.push({ text: `${new Date(Number(unix[0]) * 1000).toISOString().slice(0, 19)}Z`, role, hasDate: true, hasTime: true });
  if (found.length > 0 || INTERVAL.test(folded)) return found;
  const time = TIME.exec(text);
  return time === null || (role === "plain" && !/time|zeit|heure|hora|ora|tijd|uhr/.test(folded))
    ? []
    : [{ text: time[0], role, hasDate: false, hasTime: true }];
}

/** Its whole name: of two or three letters it may be another word ("di", "mit"). */
function weekdayBefore(text: string): { readonly weekday?: number } {
  const day = weekdayOf(/(\p{L}{4,})[.,]? *$/u.exec(text.slice(-20))?.[1] ?? "");
  return day === null ? {} : { weekday: day };
}

const readable = (text: string) => (["dmy", "mdy", "ymd", "ydm"] as const).some((order) => readStamp(text, order) !== null);

/** "Start date" on one line and "Start time" on the next are one stamp. */
function joinHalves(stamps: readonly ToldStamp[]): ToldStamp[] {
  const joined: ToldStamp[] = [];
  for (const stamp of stamps) {
    const last = joined.at(-1);
    // when the instrument was calibrated says nothing of a time of day that stands below it
    const roles = new Set([last?.role, stamp.role]);
    const fits = last !== undefined && (last.role === stamp.role || (roles.has("plain") && !roles.has("written")));
    if (fits && last.hasDate !== stamp.hasDate && last.hasTime !== stamp.hasTime) {
      const role = last.role === "plain" ? stamp.role : last.role;
      joined[joined.length - 1] = {
        text: last.hasDate ? `${last.text} ${stamp.text}` : `${stamp.text} ${last.text}`,
        role,
        hasDate: true,
        hasTime: true,
      };
    } else joined.push(stamp);
  }
  return joined;
}

/** Beside a date the interval stands in a part of its own: "First sample: 2024-03-14 08:00:00; interval 10 s". */
function intervalIn(line: string, stamps: readonly ToldStamp[]): number | null {
  if (stamps.every((stamp) => !stamp.hasDate)) return intervalOf(line);
  const part = line.split(/[;,|]/).find((text) => INTERVAL.test(foldLine(text)) && stampsIn(text).every((stamp) => !stamp.hasDate));
  return part === undefined ? null : intervalOf(part);
}

function intervalOf(line: string): number | null {
  const folded = line.toLowerCase();
  const unit = /[([]\s*([\p{L}µ]+)\s*[)\]]|_([a-z]+)\b/u.exec(folded);
  const cut = /[:=;\t]|,(?=\s*["\d])/.exec(line);
  const value = cut === null ? line : line.slice(cut.index + 1);
  return readInterval(value, unit === null ? null : timeUnit(unit[1] ?? unit[2])) ?? readInterval(line, null);
}

const D = "(?:dd?|tt?|jj?|gg?)";
const M = "mm?";
const Y = "(?:yyyy|yy|jjjj|jj|aaaa|aa|aaaa)";
const FORMS: readonly (readonly [DateOrder, RegExp])[] = [
  ["ymd", new RegExp(`\\b${Y}([-/. ])${M}\\1${D}\\b`)],
  ["ydm", new RegExp(`\\b${Y}([-/. ])${D}\\1${M}\\b`)],
  ["dmy", new RegExp(`\\b${D}([-/. ])${M}\\1${Y}`)],
  ["mdy", new RegExp(`\\b${M}([-/. ])${D}\\1${Y}`)],
  ["ymd", /\b(?:yy){1,2}mmdd/],
  ["dmy", /\bddmmyy/],
  ["mdy", /\bmmddyy/],
];

function orderOf(texts: readonly string[]): DateOrder | null {
  for (const text of texts) {
    const folded = text.toLowerCase();
    for (const [order, form] of FORMS) if (form.test(folded)) return order;
    if (/month\s*[/-]\s*day|m\s*\/\s*d\s*\/\s*y/.test(folded)) return "mdy";
    if (/day\s*[/-]\s*month|d\s*\/\s*m\s*\/\s*y/.test(folded)) return "dmy";
  }
  return null;
}

/** The told stamp in seconds as if UTC; NaN where it cannot be read in this order. */
export function toldSeconds(told: ToldStamp, order: DateOrder): { readonly seconds: number; readonly stamp: Stamp | null } {
  const stamp = readStamp(told.text, order);
  const day = stamp === null || Number.isNaN(stamp.days) ? 0 : stamp.days * 86400;
  return { seconds: stamp === null ? Number.NaN : day + (Number.isNaN(stamp.seconds) ? 0 : stamp.seconds), stamp };
}
