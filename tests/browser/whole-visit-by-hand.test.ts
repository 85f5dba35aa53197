import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { drawn, resting } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

/** Presses Tab (or Shift with it) until something whose name begins so has the focus; its name comes from label or text. */
async function tabTo(page: Page, name: string, key = "Tab"): Promise<void> {
  for (let i = 0; i < 260; i++) {
    await page.keyboard.press(key);
    const focused = await page.evaluate(() => {
      const element = document.activeElement;
      if (!(element instanceof HTMLElement)) return "";
      const labels = "labels" in element ? [...((element as HTMLInputElement).labels ?? [])].map((label) => label.textContent) : [];
      return (element.getAttribute("aria-label") ?? labels[0] ?? element.textContent ?? "").trim();
    });
    if (focused.startsWith(name)) return;
  }
  throw new Error(`never reached "${name}" by ${key}`);
}

const ruler = (page: Page) => page.locator(".time-tick > span:first-child").allTextContents();
const shares = (page: Page) => page.locator(".cause-share").allTextContents();

test("a whole visit by keyboard alone: sample, trace, finding, picture, reading, tick, note, what if, report", {
  timeout: 240_000,
}, async () => {
  const { page, errors } = await opened.fresh();
  await tabTo(page, "Open the sample visit");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Next visit" }).waitFor();

  await tabTo(page, "Trace of all channels");
  await resting(page.locator(".stage .u-over").first());
  const whole = await ruler(page);
  await page.keyboard.press("+");
  await expect.poll(() => ruler(page)).not.toEqual(whole);
  await page.keyboard.press("0");
  await expect.poll(() => ruler(page)).toEqual(whole);

  await tabTo(page, "At which period it swings");
  await page.keyboard.press("Enter");
  await page.getByText(/The strongest swing has a period of/).waitFor();

  await tabTo(page, "Show on trace");
  await page.keyboard.press("Enter");
  await expect.poll(() => ruler(page)).not.toEqual(whole);
  await page.locator('.finding[data-lit="true"]').waitFor();

  await tabTo(page, "Precharge as read");
  const before = await shares(page);
  await page.keyboard.press("Control+A");
  await page.keyboard.type("20 psi");
  await page.keyboard.press("Enter");
  await expect.poll(() => shares(page)).not.toEqual(before);

  await tabTo(page, "Read the precharge");
  await page.keyboard.press("Space");
  await page.getByText(/^1 of \d+ steps done/).waitFor();
  await tabTo(page, "Notes of this visit");
  await page.keyboard.type("Gauge reads 20 psi.");
  await tabTo(page, "Save the findings as JSON");
  const [findings] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
  expect(findings.suggestedFilename()).toMatch(/^findings .*\.json$/);

  await tabTo(page, "What if", "Shift+Tab");
  await page.keyboard.press("Enter");
  await page.getByRole("slider", { name: "Sleep delay", exact: true }).waitFor();
  await tabTo(page, "Sleep delay, as a value");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("90");
  await page.keyboard.press("Enter");
  await page.getByText("predicted with the change").waitFor();
  await page.keyboard.press("Escape");
  await page.getByRole("heading", { name: "Next visit" }).waitFor();

  await tabTo(page, "Report");
  await page.keyboard.press("Enter");
  await page.getByRole("dialog").waitFor();
  await tabTo(page, "Save the report");
  const [report] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
  expect(report.suggestedFilename()).toMatch(/\.html$/);
  await page.keyboard.press("Escape");
  expect(await page.getByRole("textbox", { name: "Notes of this visit" }).inputValue()).toBe("Gauge reads 20 psi.");
  expect(errors).toEqual([]);
});

test("a whole visit by touch on a phone: sample, pinch, band, finding, reading, tick, what if, report", { timeout: 240_000 }, async () => {
  const { page, errors } = await opened.fresh({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  await page.getByRole("button", { name: "Open the sample visit" }).tap();
  await page.getByRole("heading", { name: "Next visit" }).waitFor();

  await resting(page.locator(".stage .u-over").first());
  const whole = await ruler(page);
  await pinch(page);
  await expect.poll(() => ruler(page)).not.toEqual(whole);
  await page.getByRole("button", { name: "Whole record" }).tap();
  await expect.poll(() => ruler(page)).toEqual(whole);

  const lanes = await resting(page.locator(".band-lanes"));
  for (let share = 0.3; share < 0.9 && (await page.locator('.finding[data-lit="true"]').count()) === 0; share += 0.02) {
    await page.touchscreen.tap(lanes.x + lanes.width * share, lanes.y + 8);
    await drawn(page);
  }
  await page.locator('.finding[data-lit="true"]').waitFor();
  await page
    .getByRole("button", { name: /^Show on trace: Pressure oscillates/ })
    .first()
    .tap();
  await expect.poll(() => ruler(page)).not.toEqual(whole);

  const before = await shares(page);
  const reading = page.locator('section[aria-labelledby="next-visit"]').getByRole("textbox", { name: "Precharge as read" });
  await reading.fill("20 psi");
  await reading.press("Enter");
  await expect.poll(() => shares(page)).not.toEqual(before);
  await page.getByRole("checkbox", { name: "Read the precharge" }).tap();
  await page.getByText(/^1 of \d+ steps done/).waitFor();

  await page.getByRole("button", { name: "What if", exact: true }).tap();
  const slider = page.getByRole("slider", { name: "Sleep delay", exact: true });
  await slider.waitFor();
  await slider.tap({ position: { x: 120, y: 18 } });
  await page.getByText("predicted with the change").waitFor();
  await page.getByRole("button", { name: "Back to the story" }).tap();

  await page.getByRole("button", { name: "All sheets" }).tap();
  await page.getByRole("button", { name: "Report", exact: true }).tap();
  const [report] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the report" }).tap()]);
  expect(report.suggestedFilename()).toMatch(/\.html$/);
  expect(errors).toEqual([]);
});

/** Two fingers drawn apart over the trace. */
async function pinch(page: Page): Promise<void> {
  const plot = await resting(page.locator(".stage .u-over").first());
  const touch = await page.context().newCDPSession(page);
  const y = plot.y + plot.height / 2;
  const middle = plot.x + plot.width / 2;
  const fingers = (apart: number) => ({
    touchPoints: [
      { x: middle - apart, y, id: 1 },
      { x: middle + apart, y, id: 2 },
    ],
  });
  await touch.send("Input.dispatchTouchEvent", { type: "touchStart", ...fingers(20) });
  for (let apart = 30; apart <= 110; apart += 20) await touch.send("Input.dispatchTouchEvent", { type: "touchMove", ...fingers(apart) });
  await touch.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
}
