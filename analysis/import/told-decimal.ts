/** A line that names the decimal mark, in seven languages: "Decimal separator: comma", "Dezimaltrennzeichen: Komma", "decimal = ,". Common practice, no source. */
const TOLD =
  /d[eé][cz]im\p{L}*[^:=]{0,30}[:=]\s*["'(]?\s*(?:(,|comma|komma|virgule|coma|v[íi]rgula|virgola)|(\.|point|dot|period|full stop|punkt|punto|ponto|punt))(?!\p{L})/iu;

/** The decimal mark that the lines above a table name; null where none does. */
export function toldDecimal(lines: readonly string[]): "," | "." | null {
  for (const line of lines) {
    const told = line.length < 200 ? TOLD.exec(line) : null;
    if (told !== null) return told[1] === undefined ? "." : ",";
  }
  return null;
}
