/** Characters that steer a terminal or turn the writing round, but for line ends: control codes (ISO 6429) and bidirectional marks (Unicode UAX 9). */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones to be taken out
const STEERING = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g;

/** A text with names from files in it, safe to print: what would steer the terminal is shown as a replacement mark. */
export const forTerminal = (text: string): string => text.replace(STEERING, "\ufffd");

/** The same on one line: the name of a file may hold line ends and tabs. */
export const onOneLine = (text: string): string => forTerminal(text).replace(/[\t\n]/g, "\ufffd");
