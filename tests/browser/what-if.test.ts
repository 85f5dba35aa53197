import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { serious } from "./axe";
import { type OpenedPage, openPage } from "./open-page";
import { openSheet } from "./sheets";
import { resting, story } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

type Options = Parameters<OpenedPage["fresh"]>[0];

/** The sample visit with what-if beside its trace, the model fitted. */
async function whatIf(options: Options = {}) {
  const { page, errors } = await opened.fresh(options);
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await story(page).waitFor();
  const panel = await openSheet(page, "What if");
  await panel.getByRole("slider", { name: "Sleep delay", exact: true }).waitFor();
  return { page, panel, errors };
}

const changed = (page: Page, measure: string) =>
  page.getByRole("row").filter({ hasText: measure }).first().locator(".answer-changed").textContent();
const numberOf = (text: string | null) => Number.parseFloat(text ?? "");

test("a slider moves the predicted trace at once and the numbers after it, and all can be put back and taken up again", async () => {
  const { page, panel, errors } = await whatIf();
  await expect.poll(() => changed(page, "Short cycles")).toBe("\u2013");
  const slider = panel.getByRole("slider", { name: "Sleep delay", exact: true });
  await slider.fill("90");
  await page.getByText("predicted with the change").waitFor();
  // A sleep delay longer than the pauses between draws: no short cycle is left.
  await expect.poll(async () => numberOf(await changed(page, "Short cycles"))).toBeLessThan(1);
  await expect.poll(() => panel.getByRole("textbox", { name: "Sleep delay, as a value" }).inputValue()).toMatch(/^\d[\d.]*\u202fs$/);
  expect(await serious(page)).toEqual([]);
  await panel.getByRole("button", { name: "Put all back" }).click();
  await expect.poll(() => changed(page, "Short cycles")).toBe("\u2013");
  await expect.poll(() => page.getByText("predicted with the change").count()).toBe(0);
  await panel.getByRole("button", { name: "Change it again as before" }).click();
  await expect.poll(async () => numberOf(await changed(page, "Short cycles"))).toBeLessThan(1);
  expect(errors).toEqual([]);
});

test("a value is typed, checked as typed, and a proposal sets the sliders", async () => {
  const { page, panel } = await whatIf();
  const typed = panel.getByRole("textbox", { name: "Precharge, as a value" });
  await typed.fill("thirty");
  await panel.getByText("Write it with its unit, like 38 psi.").waitFor();
  await typed.fill("30");
  await typed.press("Enter");
  await expect.poll(() => panel.getByRole("textbox", { name: "Precharge, as a value" }).inputValue()).toBe("30.0\u202fpsi");
  await panel.getByRole("button", { name: "Propose the smallest change" }).click();
  await page.getByText(/^(The smallest change of|None of the) \d+/).waitFor();
  await expect.poll(() => panel.locator('.change[data-moved="true"]').count()).toBeGreaterThan(0);
});

test("closing it takes the prediction away and brings the story back where it was, by keyboard too", async () => {
  const { page, panel } = await whatIf();
  await panel.getByRole("slider", { name: "Leak", exact: true }).focus();
  await page.keyboard.press("ArrowRight");
  await page.getByText("predicted with the change").waitFor();
  await page.keyboard.press("Escape");
  await story(page).waitFor();
  await page.getByText("predicted with the change").waitFor({ state: "detached" });
  await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe("What if");
});

test("on a phone the trace stays on top of the sliders, and nothing runs out of its width", async () => {
  const { page, panel, errors } = await whatIf({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
  const slider = panel.getByRole("slider", { name: "Sleep delay", exact: true });
  await slider.scrollIntoViewIfNeeded();
  await slider.fill("90");
  await page.getByText("predicted with the change").waitFor();
  expect((await resting(page.getByRole("region", { name: "Trace" }))).y).toBeGreaterThanOrEqual(-1);
  await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  expect(await serious(page)).toEqual([]);
  expect(errors).toEqual([]);
});

test("each change of the next visit tells on asking what the fitted model expects of it, beside what practice and physics say", async () => {
  const { page, errors } = await opened.fresh();
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await page.getByRole("button", { name: "Work out what each change would do here" }).click();
  const told = page.locator(".step").filter({ hasText: "By the model fitted to this log" });
  await told.first().waitFor();
  expect(await told.first().textContent()).toMatch(/water the tank gives between stop and restart/);
  await page.getByRole("button", { name: "Work out what each change would do here" }).waitFor({ state: "detached" });
  expect(await serious(page)).toEqual([]);
  expect(errors).toEqual([]);
});
