import { stateOf } from "./running-words";

/** "1 = stopped", "0=run", "1: off", "2 = running". */
const NUMBER_FIRST = /(?<![\d.,])(\d{1,5})\s*(?:=|:|->|→|is|means)\s*["']?(\p{L}[\p{L} ]{0,18}\p{L}|\p{L})/giu;
/** "stopped=1", "run: 0". */
const WORD_FIRST = /(\p{L}[\p{L}]{0,14})\s*=\s*(\d{1,5})(?![\d.,])/giu;

const stateIn = (words: string): number | null => {
  const folded = words.toLowerCase().trim();
  return stateOf(folded) ?? stateOf(folded.split(" ")[0]);
};

/** Which of the two numbers of a flag a text says to stand for running; null where it says nothing. */
export function toldOn(text: string, [low, high]: readonly [number, number]): number | null {
  const pairs = [
    ...[...text.matchAll(NUMBER_FIRST)].map(([, number, word]) => [number, word]),
    ...[...text.matchAll(WORD_FIRST)].map(([, word, number]) => [number, word]),
  ];
  for (const [number, word] of pairs) {
    const state = stateIn(word);
    const told = [low, high].find((level) => level === Number(number));
    if (state !== null && told !== undefined) return state === 1 ? told : low + high - told;
  }
  return null;
}
