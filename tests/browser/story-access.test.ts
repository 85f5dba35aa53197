import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serious } from "./axe";
import { type OpenedPage, openPage } from "./open-page";
import { closeSheet, openSheet } from "./sheets";
import { bringIn, plainLog, textFile } from "./visits";
import { story } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

const openAll = (page: Page) =>
  page.evaluate(() => {
    for (const details of document.querySelectorAll("article details")) details.setAttribute("open", "");
  });

describe.each(["light", "dark"] as const)("axe finds nothing serious in %s", (colorScheme) => {
  test("on the empty page, on a file refused, on a visit and on its sheets", async () => {
    const { page } = await opened.fresh({ colorScheme });
    expect(await serious(page), "empty").toEqual([]);
    await bringIn(page, textFile("empty.csv", ""));
    await page.getByRole("heading", { name: "This cannot be read as a log" }).waitFor();
    expect(await serious(page), "refused").toEqual([]);
    await bringIn(page, plainLog("hill-farm.csv"));
    await story(page).waitFor();
    await openAll(page);
    expect(await serious(page), "story").toEqual([]);
    for (const sheet of ["How it was read", "Site facts", "Visits"]) {
      await openSheet(page, sheet);
      expect(await serious(page), sheet).toEqual([]);
      await closeSheet(page);
    }
  });
});

describe("the keyboard alone", () => {
  test("reaches a finding's calculation, its place on the trace, a term and a fact", async () => {
    const { page } = await opened.fresh();
    await bringIn(page, plainLog("hill-farm.csv"));
    await story(page).waitFor();
    const tabTo = async (what: string) => {
      for (let i = 0; i < 200; i++) {
        await page.keyboard.press("Tab");
        const focused = await page.evaluate(
          () => document.activeElement?.getAttribute("aria-label") ?? document.activeElement?.textContent ?? "",
        );
        if (focused.includes(what)) return;
      }
      throw new Error(`never reached "${what}" by Tab`);
    };
    await tabTo("Show on trace");
    await page.keyboard.press("Enter");
    await page.locator('.finding[data-lit="true"]').waitFor();
    await tabTo("What this means");
    await page.keyboard.press("Enter");
    await page.locator("[popover]:popover-open").waitFor();
    await page.keyboard.press("Escape");
    await expect.poll(() => page.locator("[popover]:popover-open").count()).toBe(0);
    await tabTo("How this was worked out");
    await page.keyboard.press("Enter");
    await page.locator(".finding details[open]").first().waitFor();
    await tabTo("Enter it");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.evaluate(() => document.activeElement?.id ?? "")).toMatch(/^fact-/);
    await page.keyboard.type("3 hp");
    await page.keyboard.press("Enter");
    await closeSheet(page);
  });
});

describe("a narrow phone", () => {
  test("shows the story without anything to scroll sideways", async () => {
    const { page } = await opened.fresh({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
    const overflow = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    await expect.poll(overflow).toBeLessThanOrEqual(0);
    await bringIn(page, plainLog("hill-farm.csv"));
    await story(page).waitFor();
    await openAll(page);
    await expect.poll(overflow).toBeLessThanOrEqual(0);
    for (const sheet of ["How it was read", "Site facts", "Visits"]) {
      const dialog = await openSheet(page, sheet);
      await expect.poll(() => dialog.evaluate((element) => element.scrollWidth - element.clientWidth)).toBeLessThanOrEqual(0);
      await closeSheet(page);
    }
  });
});

test("names and cells out of a file are text and never markup", async () => {
  const { page, errors } = await opened.fresh();
  const evil = '<img src=x onerror="window.__ran=1">';
  const rows = Array.from(
    { length: 300 },
    (_, i) => `2024-05-03 08:${String(Math.floor(i / 60)).padStart(2, "0")}:${String(i % 60).padStart(2, "0")},${50 + (i % 7)},1`,
  );
  await bringIn(page, textFile(`${evil}.csv`, [`# ${evil}`, `Time,"P1 ${evil} [psi]",__proto__`, ...rows].join("\n")));
  await story(page).waitFor();
  const sheet = await openSheet(page, "How it was read");
  await sheet.getByText(evil).first().waitFor();
  expect(await page.evaluate(() => "__ran" in window)).toBe(false);
  expect(await page.locator("img[src=x]").count()).toBe(0);
  expect(errors).toEqual([]);
});
