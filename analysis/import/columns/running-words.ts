const ON =
  "on t high run running started start active true yes y open 1 ein an lauft läuft laeuft lauf betrieb aktiv ja wahr marche actif oui vrai encendido encendida marcha activo si sí verdadero ligado ligada ativo sim verdadeiro acceso accesa marcia attivo sì vero aan draait actief waar working operating funcionando avviata avviato energized energised ingeschakeld activée activé activada activado attivata attivato eingeschaltet enclenché enclenchée tourne gira";
const OFF =
  "off f low ferma ferme stop stopped idle standby inactive false no n closed 0 aus steht gestoppt halt stillstand ruhe stand inaktiv nein falsch arret arrêt arrête arrêté inactif non faux apagado apagada parado parada paro detenido detenida inactivo falso desligado desligada inativo não nao spento spenta fermo ferma inattivo arrestata arrestato de-energized de-energised deenergized uitgeschakeld désactivée désactivé desactivada desactivado disattivata disattivato ausgeschaltet déclenché déclenchée uit gestopt staat inactief nee onwaar ready";

const phrases = (list: string, joined: readonly string[]): ReadonlySet<string> => new Set([...list.split(" "), ...joined]);
const ON_WORDS = phrases(ON, [
  "en marche",
  "en marcha",
  "in funzione",
  "in betrieb",
  "in marcia",
  "en service",
  "a funcionar",
  "em funcionamento",
  "in servizio",
  "switched on",
  "in bedrijf",
  "pump on",
  "läuft",
]);
const OFF_WORDS = phrases(OFF, [
  "not running",
  "a l'arret",
  "à l'arrêt",
  "staat stil",
  "außer betrieb",
  "pump off",
  "nicht in betrieb",
  "hors service",
  "fuori servizio",
  "switched off",
  "fora de serviço",
]);

/** A contact lets current through while it is closed; a valve lets water through while it is open. */
const CONTACT: ReadonlyMap<string, number> = new Map([
  ["closed", 1],
  ["open", 0],
]);

export const stateOf = (word: string): number | null => (ON_WORDS.has(word) ? 1 : OFF_WORDS.has(word) ? 0 : null);

/** The word of a state that carries its number too: "1: run", "0 = stop", "1 (on)", "on (1)". */
const withoutNumber = (word: string): string =>
  word
    .replace(/^\(?\d\)?(?:\s*[:=.)/-]\s*|\s+)(?=\(?\p{L})/u, "")
    .replace(/\s*[([]\d[)\]]$/, "")
    .replace(/^\((.*)\)$/, "$1");

/** Words of any yes or no ("valid: true"): they name no machine that runs or stands. */
const YES_OR_NO: ReadonlySet<string> = new Set(
  "t f true false yes no y n ja nein oui non si sí sim vrai faux wahr falsch verdadero falso vero verdadeiro não nao nee waar onwaar high low open closed 1 0 active inactive".split(
    " ",
  ),
);

/** Whether the words of a column, lower case, are those of a machine. */
export const saysMachine = (words: readonly string[]): boolean => words.some((word) => !YES_OR_NO.has(word));

/**
 * The two words of a column as 1 and 0, lower case; null where a cell is neither.
 * @param running the heading is that of a machine: of two words, the one that is not known is the opposite of the other
 */
export function stateWords(cells: readonly string[], contact = false, running = false): ReadonlyMap<string, number> | null {
  const words = new Map<string, number | null>();
  for (const cell of cells) {
    const word = cell.toLowerCase();
    if (words.has(word) || word === "") continue;
    const state =
      contact && CONTACT.has(word)
        ? CONTACT.get(word)
        : (stateOf(word) ?? stateOf(withoutNumber(word)) ?? stateOf(/^\S+ (on|off|ein|aus|running|stopped)$/.exec(word)?.[1] ?? ""));
    if (state === null && !running) return null;
    words.set(word, state ?? null);
    if (words.size > 8) return null;
  }
  const known = [...words.values()].find((state) => state !== null);
  const unknown = [...words].filter(([, state]) => state === null);
  if (known === undefined || (unknown.length > 0 && words.size > 2)) return null;
  return new Map([...words].map(([word, state]) => [word, state ?? 1 - known] as const));
}

/**
 * The two words of a column, as the file writes them; of a column of one word and blanks, that word and the blank or the mark that stands for it.
 * Null where there are more or fewer.
 */
export function twoWords(texts: readonly string[], cells: readonly string[]): readonly [string, string] | null {
  const words = distinct(texts);
  const all = words.length === 1 ? distinct(cells) : words;
  if (all.length !== 2) return null;
  return words.length === 2 || all[0] === words[0] ? [all[0], all[1]] : [all[1], all[0]];
}

/** The first three that differ in more than their case, as they are first written. */
function distinct(cells: readonly string[]): readonly string[] {
  const found = new Map<string, string>();
  for (const cell of cells) {
    if (!found.has(cell.toLowerCase())) found.set(cell.toLowerCase(), cell);
    if (found.size > 2) break;
  }
  return [...found.values()];
}

/** A mark set where something is so. */
export const isTick = (word: string): boolean => /^[x\u2713\u2714\u2715\u2716\u25cf\u25a0*]$/i.test(word);
