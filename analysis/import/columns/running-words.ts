const ON =
  "on t high run running started start active true yes y open 1 ein an lauft läuft laeuft lauf betrieb aktiv ja wahr marche en marche actif oui vrai encendido encendida marcha en marcha activo si sí verdadero ligado ligada ativo sim verdadeiro acceso accesa in funzione marcia attivo sì vero aan draait actief waar working operating in betrieb funcionando";
const OFF =
  "off f low ferma ferme stop stopped idle standby inactive false no n closed 0 aus steht gestoppt halt inaktiv nein falsch arret arrêt arrête arrêté a l'arret inactif non faux apagado apagada parado parada paro detenido detenida inactivo falso desligado desligada inativo não nao spento spenta fermo ferma inattivo uit gestopt staat stil inactief nee onwaar not running ready";

const phrases = (list: string, joined: readonly string[]): ReadonlySet<string> => new Set([...list.split(" "), ...joined]);
const ON_WORDS = phrases(ON, [
  "en marche",
  "en marcha",
  "in funzione",
  "in betrieb",
  "in marcia",
  "en service",
  "in bedrijf",
  "pump on",
  "läuft",
]);
const OFF_WORDS = phrases(OFF, ["not running", "a l'arret", "à l'arrêt", "staat stil", "außer betrieb", "pump off"]);

/** A contact lets current through while it is closed; a valve lets water through while it is open. */
const CONTACT: ReadonlyMap<string, number> = new Map([
  ["closed", 1],
  ["open", 0],
]);

/** The two words of a column as 1 and 0, lower case; null where a cell is neither. "no" beside "n" or "ja" beside "nein" is read by its partner. */
export function stateWords(cells: readonly string[], contact = false): ReadonlyMap<string, number> | null {
  const words = new Map<string, number>();
  for (const cell of cells) {
    const word = cell.toLowerCase();
    if (words.has(word) || word === "") continue;
    if (contact && CONTACT.has(word)) words.set(word, CONTACT.get(word) ?? 0);
    else if (ON_WORDS.has(word)) words.set(word, 1);
    else if (OFF_WORDS.has(word)) words.set(word, 0);
    else return null;
    if (words.size > 8) return null;
  }
  return words.size === 0 ? null : words;
}
