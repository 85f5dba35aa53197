import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serious } from "./axe";
import { type OpenedPage, openPage } from "./open-page";
import { openSheet } from "./sheets";
import { resting, story } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

async function openSample(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await story(page).waitFor();
  await page.getByRole("heading", { name: "Closer looks" }).waitFor();
}

const LIGHTS = ["Paper", "Night", "Bright sunlight"] as const;

describe("axe finds nothing serious", () => {
  test("on the empty page, in a sheet, on a whole visit with everything open, in every light", async () => {
    const { page } = await opened.fresh();
    expect(await serious(page)).toEqual([]);
    await openSample(page);
    await page
      .getByRole("button", { name: /^Show on trace/ })
      .first()
      .click();
    for (const summary of await page.locator("article details > summary").all()) await summary.click();
    for (const light of LIGHTS) {
      const sheet = await openSheet(page, "How it is shown");
      await sheet.getByRole("radio", { name: light, exact: true }).check();
      expect(await serious(page, ["color-contrast"]), `sheet, ${light}`).toEqual([]);
      await sheet.getByRole("button", { name: "Close", exact: true }).click();
      await sheet.waitFor({ state: "detached" });
      // Other lights change colours only.
      expect(await serious(page, light === "Paper" ? null : ["color-contrast"]), light).toEqual([]);
    }
  });

  test("on a phone, and nothing runs out of its width", async () => {
    const { page } = await opened.fresh({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
    await openSample(page);
    expect(await serious(page)).toEqual([]);
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  });
});

test("a page magnified four times still fits its width", async () => {
  // 1280 px at 400 % leaves 320 px: WCAG 2.2, 1.4.10 Reflow.
  const { page } = await opened.fresh({ viewport: { width: 320, height: 256 } });
  await openSample(page);
  await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
  // And begins with the picture, not with the ways to other sheets.
  const plot = await resting(page.locator(".stage .u-over").first());
  expect(plot.y + plot.height).toBeLessThan(256);
  expect(plot.height).toBeGreaterThan(50);
  await page.getByRole("combobox", { name: "Drawn" }).selectOption({ label: "Flow" });
  await page.locator(".strip-head", { hasText: "Flow" }).waitFor();
});
