/** Words a stamp may hold, folded (no accents, no case, no dots): months and days in seven languages, halves of the day, zones, and filler. */

const MONTHS: readonly string[] = [
  // English, German, French, Spanish, Portuguese, Italian, Dutch; common practice, no source
  "jan january januar janner janvier janv enero ene janeiro gennaio gen januari",
  "feb february februar fevrier fevr fev febrero fevereiro febbraio februari",
  "mar march marz mrz mars marzo marco maart mrt maerz",
  "apr april avril avr abril abr aprile",
  "may mai mayo maio maggio mag mei",
  "jun june juni juin junio junho giugno giu",
  "jul july juli juillet juil julio julho luglio lug",
  "aug august aout agosto ago augustus",
  "sep sept september septembre septiembre setiembre set setembro settembre sett",
  "oct october okt oktober octobre octubre outubro out ottobre ott",
  "nov november novembre noviembre novembro",
  "dec december dez dezember decembre diciembre dic dezembro dicembre",
];

const WEEKDAYS =
  "mon monday tue tues tuesday wed wednesday thu thur thurs thursday fri friday sat saturday sun sunday " +
  "mo montag di dienstag mi mittwoch do donnerstag fr freitag sa samstag sonnabend so sonntag " +
  "lun lundi mardi mer mercredi jeu jeudi ven vendredi sam samedi dim dimanche " +
  "lunes martes mie miercoles jue jueves vie viernes sab sabado domingo dom " +
  "seg segunda ter terca qua quarta qui quinta sex sexta feira " +
  "lunedi martedi mercoledi gio giovedi venerdi sabato domenica " +
  "ma maandag dinsdag wo woe woensdag don donderdag vr vrij vrijdag za zat zaterdag zo zon zondag";

/** Days of the week by the letters that begin their names in one language or another, Monday first; a name of two days of two languages is left out. */
const NAMED_DAYS: readonly string[] = [
  "mo ma seg segunda mon monday montag lundi lun lunes lunedi maandag",
  "di ter terca tue tues tuesday dienstag mardi martes martedi dinsdag",
  "mi wo mer mie qua quarta wed wednesday mittwoch mercredi miercoles mercoledi woensdag",
  "do jeu jue gio qui quinta thu thur thurs thursday donnerstag jeudi jueves giovedi donderdag",
  "fr vr ven vie sex sexta fri friday freitag vendredi viernes venerdi vrijdag",
  "sa za sam sab sat saturday samstag sonnabend samedi sabado sabato zaterdag",
  "so zo dim dom sun sunday sonntag dimanche domingo domenica zondag",
];

/** Day of the week that a stamp names in front, Monday 0; null where it names none. */
export function weekdayOf(stamp: string): number | null {
  const word = /^\s*(\p{L}{2,10})/u.exec(stamp)?.[1];
  if (word === undefined) return null;
  const folded = foldWord(word);
  const day = NAMED_DAYS.findIndex((names) => names.split(" ").includes(folded));
  return day < 0 ? null : day;
}

const FILLER = "as las los alle ore klokke kl klo de del di at um uhr of le el il a alle om on the h er ore heures hrs th st nd rd";

/** Seconds east of UTC of the abbreviations that stamps and headings use, each fixed by its own name. Of the two common meanings of BST the British is taken; those of CST and IST are asked (`doubtfulZone`). */
const ZONES: Readonly<Record<string, number>> = {
  z: 0,
  utc: 0,
  gmt: 0,
  wet: 0,
  west: 1,
  bst: 1,
  cet: 1,
  mez: 1,
  hec: 1,
  cest: 2,
  mesz: 2,
  eet: 2,
  eest: 3,
  msk: 3,
  est: -5,
  edt: -4,
  cst: -6,
  cdt: -5,
  mst: -7,
  mdt: -6,
  pst: -8,
  pdt: -7,
  akst: -9,
  akdt: -8,
  hst: -10,
  ast: -4,
  adt: -3,
  brt: -3,
  brst: -2,
  art: -3,
  awst: 8,
  acst: 9.5,
  acdt: 10.5,
  aest: 10,
  aedt: 11,
  nzst: 12,
  nzdt: 13,
  sast: 2,
  jst: 9,
  ist: 5.5,
  sgt: 8,
  hkt: 8,
  wez: 0,
  wesz: 1,
  oez: 2,
  oesz: 3,
}; // common practice, no source

export type CalendarWord =
  | { readonly kind: "month"; readonly month: number }
  | { readonly kind: "half"; readonly pm: boolean }
  | { readonly kind: "zone"; readonly offset: number }
  | { readonly kind: "filler" };

const WORDS = new Map<string, CalendarWord>();
for (const word of `${FILLER} ${WEEKDAYS}`.split(" ")) WORDS.set(word, { kind: "filler" });
for (const [name, hours] of Object.entries(ZONES)) WORDS.set(name, { kind: "zone", offset: hours * 3600 });
for (const [index, names] of MONTHS.entries()) for (const name of names.split(" ")) WORDS.set(name, { kind: "month", month: index + 1 });
for (const name of ["am", "vorm"]) WORDS.set(name, { kind: "half", pm: false });
for (const name of ["pm", "nachm"]) WORDS.set(name, { kind: "half", pm: true });

/** Lower case without accents and dots: "Févr." becomes "fevr", "a.m." becomes "am". */
export const foldWord = (word: string): string =>
  word
    .toLowerCase()
    .normalize("NFD")
    .replace(/[\u0300-\u036f.\u00b7]/g, "");

const seen = new Map<string, CalendarWord | null>();

/** What a word of a stamp means, or null. "mar" is March even where it may be a Tuesday: a date has a month before it has a weekday. */
export function calendarWord(word: string): CalendarWord | null {
  let known = seen.get(word);
  if (known === undefined) {
    known = WORDS.get(foldWord(word)) ?? null;
    if (seen.size < 1000) seen.set(word, known);
  }
  return known;
}
