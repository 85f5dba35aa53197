import { stateOf } from "./running-words";

/** "1 = stopped", "0=run", "1: off". */
const NUMBER_FIRST = /(?<![\d.,])([01])\s*(?:=|:|->|→|is|means)\s*["']?(\p{L}[\p{L} ]{0,18}\p{L}|\p{L})/giu;
/** "stopped=1", "run: 0". */
const WORD_FIRST = /(\p{L}[\p{L}]{0,14})\s*=\s*([01])(?![\d.,])/giu;

const stateIn = (words: string): number | null => {
  const folded = words.toLowerCase().trim();
  return stateOf(folded) ?? stateOf(folded.split(" ")[0]);
};

/** What a text says that 1 means in a flag: 1 for running, 0 for standing; null where it says nothing. */
export function toldSense(text: string): 0 | 1 | null {
  const pairs = [
    ...[...text.matchAll(NUMBER_FIRST)].map(([, number, word]) => [number, word]),
    ...[...text.matchAll(WORD_FIRST)].map(([, word, number]) => [number, word]),
  ];
  for (const [number, word] of pairs) {
    const state = stateIn(word);
    if (state !== null) return state === Number(number) ? 1 : 0;
  }
  return null;
}
