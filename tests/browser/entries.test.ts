import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { openSheet } from "./sheets";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

test("an entry says how it is read while it is typed, and what is wrong with it after a pause, before it is left", async () => {
  const { page, errors } = await opened.fresh();
  // The pause is as long as it is said to be, however slow the machine.
  await page.clock.install();
  await page.clock.pauseAt(Date.now() + 60_000);
  await openSheet(page, "Site facts");
  const field = page.getByRole("textbox", { name: "Precharge as read" });
  const told = page.locator("#fact-precharge-state");
  await field.pressSequentially("3 bar");
  await expect.poll(() => told.textContent()).toBe("That is 43.5\u202fpsi."); // 1 bar is 14.5038 psi (NIST SP 811)
  await field.fill("3 buckets");
  expect(await field.getAttribute("aria-invalid")).toBe("false");
  await page.clock.runFor(1000);
  await expect.poll(() => field.getAttribute("aria-invalid")).toBe("true");
  expect(await told.textContent()).toMatch(/^"3 buckets" does not read as this\. Write a number with its unit/);
  await field.fill("40 psi");
  await expect.poll(() => field.getAttribute("aria-invalid")).toBe("false");
  expect(errors).toEqual([]);
});
