import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { untilKept } from "./store";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

async function sample(): Promise<{ page: Page; errors: readonly string[] }> {
  const { page, errors } = await opened.fresh();
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await page.getByRole("heading", { name: "Next visit" }).waitFor();
  return { page, errors };
}

test("undo takes back ticks, notes and facts in the order they were entered, by button and by keys, and says what", async () => {
  const { page, errors } = await sample();
  const tick = page.getByRole("checkbox", { name: /Read the precharge/ });
  const notes = page.getByRole("textbox", { name: "Notes of this visit" });
  const precharge = page.locator('section[aria-labelledby="next-visit"]').getByRole("textbox", { name: "Precharge as read" });
  const told = page.locator(".undo-row [role=status]");

  await tick.check();
  await notes.fill("Gauge sticks");
  await page.getByRole("button", { name: "Undo: notes of this visit" }).waitFor();
  await notes.fill("Gauge sticks, replaced"); // the same note, typed in two breaths
  await untilKept(page, "Gauge sticks, replaced");
  await precharge.fill("3 psi");
  await precharge.press("Enter");

  await page.getByRole("button", { name: "Undo: precharge as read" }).click();
  await expect.poll(() => precharge.inputValue()).toBe("43 psi");
  expect(await told.textContent()).toBe("Taken back: precharge as read.");

  await tick.focus();
  await page.keyboard.press("Control+z");
  await expect.poll(() => notes.inputValue()).toBe("");
  expect(await tick.isChecked()).toBe(true);
  await page.keyboard.press("Control+z");
  await expect.poll(() => tick.isChecked()).toBe(false);
  expect(await told.textContent()).toMatch(/^Taken back: tick at .Read the precharge.\.$/);

  await page.keyboard.press("Control+Shift+Z");
  await expect.poll(() => tick.isChecked()).toBe(true);
  await page.keyboard.press("Control+y");
  await expect.poll(() => notes.inputValue()).toBe("Gauge sticks, replaced");
  expect(errors).toEqual([]);
});

test("in a field of text the keys of undo stay with the typing", async () => {
  const { page } = await sample();
  await page.getByRole("checkbox", { name: /Read the precharge/ }).check();
  const notes = page.getByRole("textbox", { name: "Notes of this visit" });
  await notes.focus();
  await page.keyboard.press("Control+z");
  expect(await page.getByRole("checkbox", { name: /Read the precharge/ }).isChecked()).toBe(true);
});
