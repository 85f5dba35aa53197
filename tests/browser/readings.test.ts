import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { numbersIn, tracesTo } from "../audit/numbers-in-text";
import { TOP } from "../house/source-files";
import { type OpenedPage, openPage } from "./open-page";
import { openSheet } from "./sheets";
import { story } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

/** Of the log's own text: instants, s, and channels in SI by NIST SP 811 (2008), Appendix B. Read here anew, without the program's reader. */
const LOG = readFileSync(join(TOP, "sample-data", "visits", "hillside-before.csv"), "utf8")
  .split(/\r?\n/)
  .map((line) => /^(\d{4}-\d\d-\d\d)[ T](\d\d:\d\d:\d\d),([\d.-]+),([\d.-]+),([\d.-]+)$/.exec(line))
  .filter((row) => row !== null)
  .map(([, day, time, psi, gpm, percent]) => ({
    at: Date.parse(`${day}T${time}Z`) / 1000,
    values: [Number(psi) * 6894.757, Number(gpm) * 6.30902e-5, Number(percent) / 100] as const,
  }));
const FIRST = LOG[0].at;
const STEP = LOG[1].at - FIRST;
const DAYS: Readonly<Record<string, string>> = { "Mon, Mar 2": "2026-03-02", "Tue, Mar 3": "2026-03-03", "Wed, Mar 4": "2026-03-04" };

/** The reading line's instant, s, and what each channel reads there. */
async function readingAt(page: Page): Promise<{ readonly at: number; readonly texts: readonly string[] }> {
  await expect.poll(() => page.locator(".strip-reading").count()).toBe(3);
  const [, day, time] = /^(\S+, \S+ \d+),? (\d\d:\d\d:\d\d)/.exec((await page.locator(".time-cursor").textContent()) ?? "") ?? [];
  return { at: Date.parse(`${DAYS[day]}T${time}Z`) / 1000, texts: await page.locator(".strip-reading").allTextContents() };
}

async function sampleVisit(): Promise<Page> {
  const { page } = await opened.fresh();
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await story(page).waitFor();
  await page.getByRole("application").focus();
  return page;
}

test.each(["psi", "bar"])("close by, the reading line reads each channel as the log wrote it, in %s", async (unit) => {
  const page = await sampleVisit();
  const sheet = await openSheet(page, "How it is shown");
  await sheet.getByRole("combobox", { name: "Pressure" }).selectOption(unit);
  await page.keyboard.press("Escape");
  await page.getByRole("application").focus();
  for (let i = 0; i < 9; i++) await page.keyboard.press("+");
  for (let place = 0; place < 6; place++) {
    await page.keyboard.press("PageUp");
    for (let i = 0; i < 3; i++) await page.keyboard.press("Shift+ArrowRight");
    await expect.poll(async () => (await readingAt(page)).texts.some((text) => text.includes(" to "))).toBe(false);
    const { at, texts } = await readingAt(page);
    expect(texts[0]).toMatch(new RegExp(`\u202f${unit}$`));
    // The instant is shown to the second: the sample nearest to it is one of two.
    const near = LOG.filter((row) => Math.abs(row.at - at) <= STEP / 2 + 1);
    expect(near.length).toBeGreaterThan(0);
    texts.forEach((text, channel) => {
      const [shown, ...more] = numbersIn(text);
      expect(more).toEqual([]);
      const sources = near.map((row) => row.values[channel]);
      expect(tracesTo(shown, sources), `${text} at ${new Date(at * 1000).toISOString()}, logged ${sources}`).toBe(true);
    });
  }
});

test("over the whole record the reading line hides no spike: its range holds every sample of its pixel, and both its ends were logged there", async () => {
  const page = await sampleVisit();
  const width = (await page.locator(".stage .u-over").first().boundingBox())?.width ?? Number.NaN;
  const pixel = ((LOG.at(-1)?.at ?? Number.NaN) - FIRST) / width;
  for (let place = 0; place < 12; place++) {
    for (let i = 0; i < 5; i++) await page.keyboard.press("Shift+ArrowRight");
    const { at, texts } = await readingAt(page);
    const within = LOG.filter((row) => Math.abs(row.at - at) <= pixel / 2 - 1);
    // Stretches at a pixel's edges count for both neighbours.
    const about = LOG.filter((row) => Math.abs(row.at - at) <= pixel);
    texts.forEach((text, channel) => {
      const ends = numbersIn(text);
      const [low, high] = [ends[0], ends.at(-1) ?? ends[0]];
      const sources = (rows: typeof LOG) => rows.map((row) => row.values[channel]);
      expect(tracesTo(low, sources(about)) && tracesTo(high, sources(about)), `${text} at ${at - FIRST} s`).toBe(true);
      const shown = (si: number) => si / [6894.757, 6.30902e-5, 0.01][channel];
      const half = 0.5 * 10 ** -low.decimals + 1e-6;
      for (const si of sources(within))
        expect(shown(si) >= low.value - half && shown(si) <= high.value + half, `${shown(si)} in ${text}`).toBe(true);
    });
  }
});
