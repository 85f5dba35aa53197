import { expect, test } from "vitest";
import { sourceFiles } from "./source-files";

/** Parts of the page, and the report, whose every word stands in shared/wording, so that another language can follow. */
const WORDLESS = [/^src\/parts\//, /^src\/views\//, /^src\/report\//, /^src\/app\.tsx$/];
/** Where a sentence would be text for people: the views, what they are told by the page's state, and the titles and names of pictures. */
const SENTENCELESS = [...WORDLESS, /^src\/charts\//, /^src\/state\//];
const TEXT = />\s*([A-Z][a-z][^<>{}=;]*?)\s*(?:<\/|\{)/g;
const ATTRIBUTE = /(?:aria-label|label|title|summary|placeholder|alt)="([^"{]*[A-Za-z]{3}[^"{]*)"/g;

const wordsIn = (text: string): string[] => [...text.matchAll(TEXT), ...text.matchAll(ATTRIBUTE)].map((match) => match[1]);

test("the check finds words between tags and in attributes", () => {
  expect(wordsIn('<p>\n  Whole record\n</p><b>{X.y}</b><i aria-label="What is drawn" className="x" />')).toEqual([
    "Whole record",
    "What is drawn",
  ]);
});

/** Two words or more between quotes, the first with a capital; notes, styles and names of files are no text for people. */
const SENTENCE = /["`]([A-Z][a-z]+ [a-z][^"`\n]*)["`]/g;
const withoutNotes = (text: string) => text.replace(/\/\*[\s\S]*?\*\/|(?<=\s)\/\/.*/g, "");

test("the check finds sentences between quotes", () => {
  expect([...'x = "No visit stands here"; // "Not this one"\nkey("Escape")'.matchAll(SENTENCE)].length).toBe(2);
  expect([...withoutNotes('x = "No visit stands here"; // "Not this one"').matchAll(SENTENCE)].map((match) => match[1])).toEqual([
    "No visit stands here",
  ]);
});

test("views, report, state and pictures hold no sentences of their own", () => {
  const files = sourceFiles("src").filter(({ path }) => SENTENCELESS.some((part) => part.test(path)));
  const found = files.flatMap(({ path, text }) => [...withoutNotes(text).matchAll(SENTENCE)].map((match) => `${path}: ${match[1]}`));
  expect(files.length).toBeGreaterThan(120);
  expect(found).toEqual([]);
});

test("views, parts and report hold no words of their own", () => {
  const files = sourceFiles("src").filter(
    ({ path }) => (path.endsWith(".tsx") || path.startsWith("src/report/")) && WORDLESS.some((part) => part.test(path)),
  );
  expect(files.length).toBeGreaterThan(40);
  expect(files.flatMap(({ path, text }) => wordsIn(text).map((word) => `${path}: ${word}`))).toEqual([]);
});
