import type { ChannelRole } from "../../../shared/record/channel-role";

/**
 * Words of headings, folded (lower case, no accents, camel case and digits split), for each role in English, German, French, Spanish,
 * Portuguese, Italian and Dutch. German and Dutch join words, so theirs match inside a word. Common practice, no source.
 */
export const ROLE_WORDS: readonly (readonly [ChannelRole, RegExp, number])[] = [
  [
    "pressure",
    /\bpress(ure|ures|ion|ione|ioni|ao|oes)?\b|\bpresion\b|druck(?!er)|\w*druk\b|\bvacuum\b|\bunterdruck\b|\bprs\b|\bhead pressure\b/,
    3,
  ],
  ["pressure", /\bp[it]+t?\b(?= ?\d| |$)|\bp ?\d{1,3}\b|^p$|\bdp\b/, 1],
  [
    "flow",
    /\bflow\w*\b|durchfluss\w*|durchflu\w*|volumenstrom|forderstrom|durchsatz|\bdebits?\b|\bcaudal\w*\b|\bvazao\b|\bportata\b|\bdebiet\b|\w*debiet\b|doorstroming|\bgasto\b|\bfluss\b|\bflujo\b|\bfluxo\b|\bflusso\b/,
    3,
  ],
  ["flow", /\bf[iq]?t\b(?= ?\d| |$)|^q$|\bq ?\d{1,3}\b|\bgpm\b|\blpm\b/, 1],
  [
    "speed",
    /\bspeed\w*\b|drehzahl|\bfrequenc\w*\b|frequenz|\bfrequentie\b|\bfrequence\b|\bfrecuencia\b|\bfreq\b|\bvitesse\b|\bvelocidad\w*\b|\bvelocita\b|snelheid|toerental|\brpm\b|\bgiri\b|umdrehung\w*|\brotation\w*\b|\bregime\b|\bhz\b|\brotacao\b|\brotazione\b/,
    3,
  ],
  [
    "current",
    /\bcurrent\b|(?<!volumen|massen|forder)strom\b|strom(?=aufnahme)|\bcourant\b|\bcorriente\b|\bcorrente\b|\w*stroom\b|\bamps?\b|\bamperage\b|\bintensite\b|\bintensidad\b|\bampere\b/,
    2.5,
  ],
  ["power", /\bpower\b|leistung\w*|\bpuissance\b|\bpotencia\b|\bpotenza\b|\bvermogen\b|\bkw\b|\bwatts?\b/, 3],
  [
    "running",
    /\brunning\b|\brun\b|\bon ?\/? ?off\b|\bpump on\b|\bmotor on\b|lauft\b|laeuft\b|\bbetrieb(?!sstunden)\w*|\bmarche\b|\bmarcha\b|\bfuncionando\b|\bligad[oa]\b|\bin funzione\b|\bin marcia\b|\bmarcia\b|\baan uit\b|\bdraait\b|\bein\b|\baan\b|\bausgeschaltet\b|\bin bedrijf\b|\ben service\b|\bstatus\b|\bstate\b|\bzustand\b|\betat\b|\bestado\b|\bstato\b|\btoestand\b|\bpump (run|active|cmd)\b|\benabled\b|\bencendid[oa]\b|\bacces[oa]\b/,
    2,
  ],
  ["temperature", /\btemp\b|temperatur\w*|\btemperatuur\w*|\bt[it]+t?\b(?= ?\d)|\bthermocouple\b/, 3.5],
  [
    "level",
    /\blevel\b|\bniveau\b|\bnivel\b|\blivello\b|fullstand|fuellstand|pegel\b|\w*peil\b|\bdepth\b|\bwasserstand\b|\bl[it]+t?\b(?= ?\d)/,
    3,
  ],
  [
    "volume",
    /\btotal\w*\b|\bvolume\b|\bvolumen\b|\bcumul\w*\b|zahler\w*|zaehler\w*|\bcompteur\b|\bcontador\b|\bcontatore\b|\w*meterstand\b|\bteller\b|\bmeter reading\b|\bpuls(e|es|os|en)\b|\bimpuls\w*\b|\bgesamtmenge\b|\bacumulado\b|\bconsumo\b|\bsumme\b|\btotale\b/,
    2.5,
  ],
];

/** Headings that a person would not take for a measured quantity of the water system, whatever else they say. */
export const OTHER_WORDS =
  /\banomal\w*\b|\blabels?\b|\bchange ?point\b|\balarm\w*\b|\balarme\b|\ballarme\b|\bstorung\w*\b|\bnotes?\b|\bcomments?\b|\bbemerkung\w*\b|\bvibration\w*\b|\baccel\w*\b|\bhumid\w*\b|\bfeuchte\b|\bbatter\w*\b|\bbatterie\w*\b|\bakku\w*\b|\bsignal strength\b|\brssi\b|\bset ?points?\b|\bset (?:pressure|speed|flow|value|level|temp\w*)\b|\bsp\b|\bsoll\w*\b|sollwert|\bconsigne\b|\bconsigna\b|\btarget\b|\bpower factor\b|\bcos ?phi\b|\bbarometr\w*\b|\bbarometer\b|\batmospher\w*\b|\batmosph\w*\b|luftdruck|\berrors?\b|\bfaults?\b|\bfehler\w*\b|\bquality\b|\bcrc\b|\bchecksum\b|\blatitude\b|\blongitude\b|\bvalve\b|\bventil\w*\b|\bvanne\b|\bvalvula\b|\bvalvola\b|\btorque\b|\bdrehmoment\b|\bph\b|\bturbidity\b|\bconductivity\b|leitfahigkeit|\bchlorine\b|\brun ?time\b|\bhours?\b|\bruntime\b|stunden\b|\bserial\b|\bsite\b|\benergy\b|\bkwh\b|\bstart(?:s|zahler| count\w*)\b|\bnumber of starts\b/;

/** Headings of a voltage: another quantity, unless they name a measured one whose raw signal it is. */
export const SIGNAL_WORDS = /\bvoltage\b|spannung\b|\btension\b|\btensione\b|\btensao\b|\bspanning\b|\bvoltaje\b/;

/** Headings that say nothing of what was measured. */
export const GENERIC_WORDS =
  /^(?:(?:ch|chan|channel|kanal|canal|canale|voie|kanaal|value|values|val|sensor|input|ai|ain|analog|analogue|analogeingang|eingang|entree|entrada|ingresso|ingang|data|messwert|wert|mesure|valeur|valor|valore|waarde|reading|probe|port|slot|y|col|column|x|a|b|c|mv|measurement|signal|in|raw|adc|loop|transducer|transmitter|unnamed)[ a-d]?)?[ #]*\d*(?: (?:ma|v|mv|counts?|adc|raw|value|signal|loop))?$/;
