import { expect, test } from "vitest";
import { sourceFiles } from "./source-files";

/** Parts of the page whose every word stands in shared/wording, so that another language can follow. */
const WORDLESS = [
  /^src\/parts\//,
  /^src\/views\/(trace|closer-looks|findings|causes|next-visit|what-if|in-short|site-facts|report|round|acceptance|before-and-after|visits)\//,
  /^src\/views\/[a-z-]+\.tsx$/,
];
const TEXT = />\s*([A-Z][a-z][^<>{}=;]*?)\s*(?:<\/|\{)/g;
const ATTRIBUTE = /(?:aria-label|label|title|summary|placeholder|alt)="([^"]*[A-Za-z]{3}[^"]*)"/g;

const wordsIn = (text: string): string[] => [...text.matchAll(TEXT), ...text.matchAll(ATTRIBUTE)].map((match) => match[1]);

test("the check finds words between tags and in attributes", () => {
  expect(wordsIn('<p>\n  Whole record\n</p><b>{X.y}</b><i aria-label="What is drawn" className="x" />')).toEqual([
    "Whole record",
    "What is drawn",
  ]);
});

test("views and parts hold no words of their own", () => {
  const files = sourceFiles("src").filter(({ path }) => path.endsWith(".tsx") && WORDLESS.some((part) => part.test(path)));
  expect(files.length).toBeGreaterThan(40);
  expect(files.flatMap(({ path, text }) => wordsIn(text).map((word) => `${path}: ${word}`))).toEqual([]);
});
