import { textDecoder } from "./platform";

/** Names of characters as pages write them, as far as headings hold them. Source: HTML, named character references. */
const NAMED: ReadonlyMap<string, string> = new Map(
  Object.entries({
    deg: "°",
    sup1: "¹",
    sup2: "²",
    sup3: "³",
    micro: "µ",
    middot: "·",
    amp: "&",
    lt: "<",
    gt: ">",
    quot: '"',
    apos: "'",
    nbsp: " ",
    auml: "ä",
    ouml: "ö",
    uuml: "ü",
    Auml: "Ä",
    Ouml: "Ö",
    Uuml: "Ü",
    szlig: "ß",
    eacute: "é",
    egrave: "è",
    ecirc: "ê",
    agrave: "à",
    aacute: "á",
    acirc: "â",
    atilde: "ã",
    ccedil: "ç",
    iacute: "í",
    oacute: "ó",
    ocirc: "ô",
    otilde: "õ",
    uacute: "ú",
    ntilde: "ñ",
    Eacute: "É",
    ugrave: "ù",
    ograve: "ò",
    igrave: "ì",
  }),
);
const REFERENCE = /&(?:#(\d{2,5})|#x([\da-f]{2,4})|([a-zA-Z\d]{2,6}));/gi;

const fatal = textDecoder("utf-8", true);
/** Byte of each character of Windows-1252. */
const BYTES: ReadonlyMap<string, number> = new Map(
  Array.from(textDecoder("windows-1252").decode(Uint8Array.from({ length: 256 }, (_, i) => i)), (character, byte) => [character, byte]),
);

/** A heading as it was meant: character references of a page ("m&sup3;/h") and UTF-8 that was once read as Windows-1252 ("mÂ³/h") undone. Any other text as it is. */
export function mendText(text: string): string {
  const plain = text.includes("&") && text.includes(";") ? text.replace(REFERENCE, character) : text;
  return /[ÂÃâ][\u0080-\u00bf€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ]/.test(plain) ? decodedAgain(plain) : plain;
}

function character(whole: string, decimal?: string, hex?: string, name?: string): string {
  if (name !== undefined) return NAMED.get(name) ?? whole;
  return String.fromCodePoint(decimal === undefined ? Number.parseInt(hex ?? "", 16) : Number(decimal));
}

function decodedAgain(text: string): string {
  const bytes = Array.from(text, (letter) => BYTES.get(letter));
  if (bytes.includes(undefined)) return text;
  try {
    return fatal.decode(Uint8Array.from(bytes as number[]));
  } catch {
    return text;
  }
}
