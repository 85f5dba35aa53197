export const isDigit = (code: number) => code >= 48 && code <= 57;
/** Letters of the languages read; the general punctuation from U+2000 on (narrow blanks, dashes) is none. */
export const isLetter = (code: number) => (code >= 65 && code <= 90) || (code >= 97 && code <= 122) || (code > 191 && code < 0x2000);
export const MINUS = "-\u2212\u2013";

/** "10h15" and "10 h 15", but not the h of a word. */
export const isHourMark = (text: string, at: number) => /^.(?:$|[\d ])/.test(text.slice(at, at + 2));
