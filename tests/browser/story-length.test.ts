import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { TOP } from "../house/source-files";
import { type OpenedPage, openPage } from "./open-page";
import { bringIn, textFile } from "./visits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

/** Words a minute at which adults silently read English non-fiction, on average: Brysbaert 2019, a review of 190 studies; from memory. */
const READING_RATE = 238;
const MINUTES = 2;

const sample = (name: string) => textFile(name, readFileSync(join(TOP, "sample-data", "visits", name), "utf8"));

/**
 * Words in sight in findings, causes and next visit, cautions included, a number and its unit as two; without what is there to press or to fill
 * in: buttons, folded parts and their headings, fields.
 */
const wordsOfStory = (page: Page): Promise<number> =>
  page.evaluate(() => {
    let count = 0;
    for (const chapter of ["findings", "causes", "next-visit"]) {
      const walk = document.createTreeWalker(
        document.querySelector(`section[aria-labelledby="${chapter}"]`) as Element,
        NodeFilter.SHOW_TEXT,
      );
      while (walk.nextNode()) {
        const { parentElement, nodeValue } = walk.currentNode;
        if (parentElement?.checkVisibility() !== true || parentElement.closest("button, summary, .field") !== null) continue;
        count += (nodeValue ?? "").split(/\s+/).filter((word) => /[\p{L}\d]/u.test(word)).length;
      }
    }
    return count;
  });

test.each(["hillside-before", "hillside-after", "orchard-healthy"])("the story of %s is read in two minutes", async (name) => {
  const { page } = await opened.fresh();
  await page.getByRole("button", { name: "Site facts" }).click();
  await page.getByLabel("File of site facts").setInputFiles(sample(`${name}.site.json`));
  await expect.poll(() => page.getByRole("textbox", { name: "Set pressure" }).inputValue()).not.toBe("");
  await page.keyboard.press("Escape");
  await bringIn(page, sample(`${name}.csv`));
  await page.getByRole("heading", { name: "Next visit" }).waitFor();
  await expect.poll(() => page.locator(".step").count()).toBeGreaterThan(0);
  // Facts that came a moment after the log change the story once more: it is counted when it has come to rest.
  let words = 0;
  await expect
    .poll(
      async () => {
        const before = words;
        words = await wordsOfStory(page);
        return words === before;
      },
      { interval: 1000 },
    )
    .toBe(true);
  expect(words).toBeGreaterThan(60); // it is there
  expect(words / READING_RATE).toBeLessThanOrEqual(MINUTES);
});
