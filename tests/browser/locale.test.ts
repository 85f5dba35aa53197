import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { openSheet } from "./sheets";
import { bringIn, textFile } from "./visits";
import { resting, untilRead } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

/** A point between digits is a decimal in English; in German only groups of three stand behind one (CLDR, de: decimal ",", group "."). */
const ENGLISH_NUMBER = /\d\.(?!\d{3}(?!\d))\d|(?<![\d.,])\d{4,}(?![\d.,])|\d,\d{3}[.,]/;
const ENGLISH_DATE = /\b(?:Mon|Tue|Wed|Thu|Sun|Mar|May|Oct|Dec)\b|\d{4}-\d\d-\d\d/;

/** What stands on the page, each text for itself, with all of it unfolded. */
function written(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    for (const details of document.querySelectorAll("details")) details.setAttribute("open", "");
    const parts = ".trace, .in-short, .finding, .cause, .step-does, .step-amounts, .look, .take-along";
    // Formulas and sources name standards and years; they are no readings.
    return [...document.querySelectorAll<HTMLElement>(parts)].flatMap((part) => {
      const copy = part.cloneNode(true) as HTMLElement;
      for (const other of copy.querySelectorAll(".formula, .finding-wrong-if, script")) other.remove();
      const walk = document.createTreeWalker(copy, NodeFilter.SHOW_TEXT);
      const texts: string[] = [];
      while (walk.nextNode()) texts.push(walk.currentNode.textContent ?? "");
      return texts;
    });
  });
}

const english = (texts: readonly string[]) =>
  texts.map((text) => text.replace(/\b20\d\d\b/g, "")).filter((text) => ENGLISH_NUMBER.test(text) || ENGLISH_DATE.test(text));

/** As close as the trace goes, with the cursor on it. */
async function goClose(page: Page): Promise<void> {
  const stage = page.locator(".stage");
  await stage.focus();
  for (let i = 0; i < 20; i++) await page.keyboard.press("+");
  const box = await resting(page.locator(".u-over").first());
  await page.mouse.move(box.x + box.width / 2, box.y + 20);
  await page.locator(".time-cursor").waitFor();
}

test("for a reader in Germany every number and date on the page is written the German way, in metric units", async () => {
  const { page, errors } = await opened.fresh({ locale: "de-DE", viewport: { width: 1440, height: 900 } });
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await page.getByRole("heading", { name: "Next visit" }).waitFor();
  await page.locator('.look-place[aria-busy="false"] .chart').waitFor();
  await goClose(page);
  const sample = await written(page);
  expect(sample.length).toBeGreaterThan(200);
  expect(english(sample)).toEqual([]);
  expect(sample.some((text) => /\d,\d+\u202fbar/.test(text))).toBe(true);
  expect(sample.some((text) => text.includes("März"))).toBe(true);

  // Ten readings a second: as close as they go the clock shows tenths.
  const rows = Array.from(
    { length: 3000 },
    (_, i) => `2024-05-03 08:0${Math.floor(i / 600)}:${((i % 600) / 10).toFixed(1).padStart(4, "0")},52.${i % 10}`,
  );
  await bringIn(page, textFile("quick.csv", ["Time,P1 [psi]", ...rows].join("\n")));
  await untilRead(page, "quick.csv");
  await goClose(page);
  await expect.poll(async () => (await written(page)).some((text) => /:\d\d,\d/.test(text))).toBe(true);
  expect(english(await written(page))).toEqual([]);
  expect(errors).toEqual([]);
});

/** An hour whose date reads in two ways, with a hole, a broken cell, a column without a name for what it holds, and a line that is none. */
function doubtfulLog(): string {
  const rows = Array.from({ length: 3600 }, (_, i) => {
    const time = new Date(i * 1000).toISOString().slice(14, 19);
    return i === 2800
      ? "no row"
      : `03/04/2024 08:${time},${i % 900 === 5 ? "ERR?!" : (3.2 + Math.sin(i / 9) / 3).toFixed(3)},${(i % 50) + 0.25}`;
  });
  return ["Date,Druck P1,Ch2", ...rows.slice(0, 1000), ...rows.slice(2600)].join("\n");
}

test("what reading asks, notices and leaves out is written in the numbers and dates of a reader in France", async () => {
  const { page, errors } = await opened.fresh({ locale: "fr-FR", viewport: { width: 1440, height: 900 } });
  await bringIn(page, textFile("doubtful.csv", doubtfulLog()));
  await untilRead(page, "doubtful.csv");
  const sheet = await openSheet(page, "How it was read");
  const parts = sheet.locator(".question, .reading-notes li, .rejects li, .clock-facts dd, .column-reason");
  const texts = (await parts.allInnerTexts()).map((text) => text.replace(/".*?"|mm\/dd\/yyyy|dd\/mm\/yyyy|: .*no row/gs, ""));
  expect(texts.length).toBeGreaterThan(6);
  expect(english(texts)).toEqual([]);
  expect(texts.some((text) => /3 avril 2024/.test(text) && /4 mars 2024/.test(text))).toBe(true);
  expect(errors).toEqual([]);
});
