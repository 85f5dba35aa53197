/**
 * A text as a cell of a CSV file that no spreadsheet takes for a formula: an apostrophe before =, +, -, @, tab or carriage return at its
 * start, and behind what another country's spreadsheet takes for the end of a cell (a semicolon, a tab, a line end); quotes, separators and
 * line ends are wrapped.
 * Source: OWASP, CSV Injection; RFC 4180.
 */
export function csvCell(text: string): string {
  const guarded = text.replace(/(?<=(?:^|[;\t\r\n])"?)(?=[=+\-@\t\r])/g, "'");
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}
