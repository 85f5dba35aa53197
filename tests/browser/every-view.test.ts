import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serious } from "./axe";
import { type OpenedPage, openPage } from "./open-page";
import { closeSheet, openSheet } from "./sheets";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

const SHEETS = [
  "How it was read",
  "Site facts",
  "What if",
  "Acceptance",
  "Before and after",
  "Report",
  "Round",
  "Visits",
  "How it is shown",
] as const;

async function sample(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await page.getByRole("heading", { name: "Next visit" }).waitFor();
}

async function inLight(page: Page, light: string): Promise<void> {
  const sheet = await openSheet(page, "How it is shown");
  await sheet.getByRole("radio", { name: light, exact: true }).check();
  await closeSheet(page);
}

/** Every sheet in turn; what-if until its model is fitted. */
async function eachSheet(page: Page, see: (name: string) => Promise<void>): Promise<void> {
  for (const name of SHEETS) {
    const sheet = await openSheet(page, name);
    if (name === "What if") await sheet.getByRole("slider", { name: "Precharge", exact: true }).waitFor();
    await see(name);
    await closeSheet(page);
  }
}

describe.each(["Paper", "Night", "Bright sunlight"])("in the light %s axe finds nothing serious", (light) => {
  test("on the empty page, the story and every sheet", { timeout: 240_000 }, async () => {
    const { page, errors } = await opened.fresh();
    await inLight(page, light);
    expect(await serious(page), "empty").toEqual([]);
    await sample(page);
    expect(await serious(page), "story").toEqual([]);
    await eachSheet(page, async (name) => {
      expect(await serious(page), name).toEqual([]);
    });
    expect(errors).toEqual([]);
  });
});

// 1280 px at 400 % leave 320 by 256 (WCAG 2.2, 1.4.10).
describe.each([
  ["on a phone", 360, 740],
  ["magnified four times", 320, 256],
] as const)("%s", (_, width, height) => {
  test("every sheet fits its width, and what is pressed is as large as a finger needs", { timeout: 240_000 }, async () => {
    const { page } = await opened.fresh({ viewport: { width, height }, hasTouch: true });
    await sample(page);
    await expect.poll(() => smallTargets(page), { message: "story" }).toEqual([]);
    await eachSheet(page, async (name) => {
      await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth), { message: name }).toBeLessThanOrEqual(width);
      await expect.poll(() => beyondRightEdge(page), { message: name }).toEqual([]);
      await expect.poll(() => smallTargets(page), { message: name }).toEqual([]);
    });
  });
});

test("on paper stand the story and its pictures in one width, and no word of a sentence is lost", async () => {
  const { page } = await opened.fresh({ viewport: { width: 1440, height: 900 } });
  await sample(page);
  await page.locator(".look-place .chart").waitFor();
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  await page.emulateMedia({ media: "print" });
  const seen = await page.evaluate(() => ({
    widest: [...document.querySelectorAll(".trace, .closer-looks")].map((part) => Math.round(part.getBoundingClientRect().width)),
    pressed: [...document.querySelectorAll("button")].filter((button) => button.checkVisibility() && !button.matches(".term-word")).length,
  }));
  // 210 mm less two margins of 14 mm are 688 px at 96 to the inch.
  for (const width of seen.widest) expect(width).toBeLessThanOrEqual(690);
  expect(seen.pressed).toBe(0);
  expect(await page.locator("section[aria-labelledby=causes] > p .term-word").isVisible()).toBe(true);
  expect(await page.locator(".trace-tools, .overview").first().isVisible()).toBe(false);
});

/** Fields and cells of the open sheet that end beyond the page's right edge, save in what scrolls by itself. */
function beyondRightEdge(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("dialog :is(button, select, input:not([hidden]), textarea, .row-by-row td)")]
      .filter((element) => element.checkVisibility({ visibilityProperty: true }) && element.closest(".round-frame") === null)
      .filter((element) => element.getBoundingClientRect().right > innerWidth)
      .map((element) => element.outerHTML.slice(0, 120)),
  );
}

/** Controls less than 24 px high or wide (WCAG 2.2, 2.5.8), save words within a sentence, which that criterion excepts. */
function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("button, select, summary, a[href], input:not([hidden]), textarea")]
      .filter((element) => element.checkVisibility({ visibilityProperty: true }) && !element.matches(".term-word"))
      .filter((element) => {
        const label = element.closest("label");
        const { width, height } = (label ?? element).getBoundingClientRect();
        return width > 0 && (width < 24 || height < 24);
      })
      .map((element) => element.outerHTML.slice(0, 120)),
  );
}
