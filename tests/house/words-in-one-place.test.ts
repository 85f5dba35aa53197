import { expect, test } from "vitest";
import { type CodeText, textsIn, textsOf } from "./texts-in-code";

const TAG = /<[^>]*>/;
/** A word beside a value, two words beside each other (or about one letter), or one alone, between tags or in a whole text, that begins with a capital. */
const reads = (text: string) =>
  /\{\}[ \u202f]\p{L}{3,}|\p{L}{3,}[,:]? \{\}/u.test(text.replace(new RegExp(TAG, "g"), " ")) ||
  /\p{L}{2,}[,;:.]? (?:\p{L} )?\p{L}{2,}/u.test(text.replace(new RegExp(TAG, "g"), " ")) ||
  text.split(TAG).some((piece) => /^\s*\p{Lu}\p{Ll}{2,}[.:!?]?\s*$/u.test(piece));
const words = (texts: readonly CodeText[]) => texts.filter(({ text, isShown }) => (isShown ? /\p{L}{2,}/u.test(text) : reads(text)));

test("the check finds words wherever they stand, and only there", () => {
  const code = [
    'import x from "./a b c";',
    'const a: "no words here" = f("x-y");',
    'throw new RangeError("a: caller gave nothing");',
    'const b = <p className="small soft" title="What is drawn">whole{a}</p>;',
    'const c = markup`<td class="level name">x</td><b>Record</b>`; // "Not this one"',
  ].join("\n");
  const found = words(textsIn(code, "a.tsx")).map(({ text }) => text);
  expect(found).toEqual(["What is drawn", "whole", '<td class="level name">x</td><b>Record</b>']);
  expect(words(textsIn("const a = `up to the end`; throw new UsageError('Name a log');", "a.ts")).length).toBe(2);
});

/** Texts that no person reads as the words of this program, by where they stand and how they look; each with its reason. */
const NO_WORDS: readonly (readonly [path: RegExp, text: RegExp, why: string])[] = [
  [/^analysis\/import\/.*-words\.ts$/, /./, "words that stand in loggers' files, in seven languages"],
  [/^analysis\/import\/number-format\.ts$/, /\|/, "marks of missing values that stand in loggers' files"],
  [/^analysis\/import\//, /\(\?|\(?:[^()|]*\|[^()]*\)/, "a pattern of words in loggers' files"],
  [/^analysis\/import\//, /^(?:units row|imp (?:gpm|gph|gal))$/, "an id, and symbols of units"],
  [/^analysis\/advice\//, /^common practice$/, "the id of a basis; its words are chosen by it"],
  [/^analysis\/model\/visit-(?:csv|record)\.ts$/, /^\w+(?: pressure)?$/, "headings of a simulated log, which is read like any other"],
  [/^(?:analysis\/import|src\/storage)\//, /^(?:[Cc]olumn|answer) \{\}$/, "an id: a column without a heading, and a remembered answer"],
  [/^src\/parts\//, /^\{\}-hint/, "ids of elements"],
  [/^analysis\/import\//, /^\{\} pulses\/L$/, "an answer as it is written, in symbols of units"],
  [/^src\/charts\//, /^\([\w-]+: [\w-]+\)$|^color-mix\(|^display: none;/, "a condition or a rule of a style sheet"],
  [/^src\/views\/trace\/trace-model\.ts$/, /^\(prefers-reduced-motion: reduce\)$/, "a condition of a style sheet"],
  [/^src\/report\/report-style\.ts$/, /@page/, "a style sheet"],
  [/^src\/(?:(?:report|command-line)\/|page-policy\.ts$)/, /; charset=|^default-src /, "types and policies of the web"],
  [/^src\/(?:parts|views)\//, /^(?:Enter|Escape|Home|End|Arrow|Shift (?:Arrow(?:Left|Right)|\{\}))$/, "names of keys (W3C UI Events)"],
  [/^src\//, /^Letter$/, "the name of a size of paper (ANSI/ASME Y14.1)"],
  [/^src\/charts\/use-light\.ts$/, /^forced dark$/, "the id of a light"],
  [/^src\/views\/trace\/cursor-lines\.tsx$/, /^measure-line /, "names of styles"],
];

const isNoWord = ({ path, text }: CodeText) => NO_WORDS.some(([where, look]) => where.test(path) && look.test(text));
const CODE = ["analysis", "src"].flatMap(textsOf);

test("analysis and src hold no words of their own: those for people stand in shared/wording, so that another language can follow", () => {
  expect(CODE.length).toBeGreaterThan(5000);
  const found = words(CODE).filter((text) => !isNoWord(text));
  expect(found.map(({ path, line, text }) => `${path}:${line} ${JSON.stringify(text)}`)).toEqual([]);
});

test("every exception is still one", () => {
  const idle = NO_WORDS.filter(([where, look]) => !words(CODE).some(({ path, text }) => where.test(path) && look.test(text)));
  expect(idle.map(([path, , why]) => `${path}: ${why}`)).toEqual([]);
});
