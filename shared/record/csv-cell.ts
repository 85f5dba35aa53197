/**
 * A text as a cell of a CSV file that no spreadsheet takes for a formula: an apostrophe before =, +, -, @, tab or carriage return at its
 * start; quotes, separators and line ends are wrapped.
 * Source: OWASP, CSV Injection; RFC 4180.
 */
export function csvCell(text: string): string {
  const guarded = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}
