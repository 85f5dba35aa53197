import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { resting } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

/** A point between digits is a decimal in English; in German only groups of three stand behind one (CLDR, de: decimal ",", group "."). */
const ENGLISH_NUMBER = /\d\.(?!\d{3}(?!\d))\d|(?<![\d.,])\d{4,}(?![\d.,])|\d,\d{3}[.,]/;
const ENGLISH_DATE = /\b(?:Mon|Tue|Wed|Thu|Sun|Mar|May|Oct|Dec)\b|\d{4}-\d\d-\d\d/;

test("for a reader in Germany every number and date on the page is written the German way, in metric units", {
  timeout: 120_000,
}, async () => {
  const { page, errors } = await opened.fresh({ locale: "de-DE", viewport: { width: 1440, height: 900 } });
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await page.getByRole("heading", { name: "Next visit" }).waitFor();
  await page.locator('.look-place[aria-busy="false"] .chart').waitFor();
  for (let i = 0; i < 17; i++) await page.getByRole("button", { name: "Closer", exact: true }).click();
  const box = await resting(page.locator(".u-over").first());
  await page.mouse.move(box.x + box.width / 2, box.y + 20);
  await page.locator(".time-cursor").waitFor();
  const read = () => {
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
  };
  // The samples of a window so narrow come after it is drawn.
  await expect.poll(async () => (await page.evaluate(read)).some((text) => /:\d\d,\d/.test(text))).toBe(true);
  const written = await page.evaluate(read);
  expect(written.length).toBeGreaterThan(200);
  const withoutYears = written.map((text) => text.replace(/\b20\d\d\b/g, ""));
  expect(withoutYears.filter((text) => ENGLISH_NUMBER.test(text) || ENGLISH_DATE.test(text))).toEqual([]);
  expect(written.some((text) => /\d,\d+\u202fbar/.test(text))).toBe(true);
  expect(written.some((text) => text.includes("März"))).toBe(true);
  expect(errors).toEqual([]);
});
