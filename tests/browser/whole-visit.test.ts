import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { plainLog } from "./visits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

test("a whole visit: a file is dropped, a column corrected, a finding read, and its place clicked", async () => {
  const { page, errors } = await opened.fresh();
  await page.evaluate((text) => {
    const dropped = new DataTransfer();
    dropped.items.add(new File([text], "hill-farm.csv", { type: "text/csv" }));
    for (const kind of ["dragenter", "dragover", "drop"]) {
      document.body.dispatchEvent(new DragEvent(kind, { dataTransfer: dropped, bubbles: true, cancelable: true }));
    }
  }, plainLog("hill-farm.csv").buffer.toString("utf8"));
  await page.getByRole("heading", { name: "What this log shows" }).waitFor();
  const flow = page.getByText(/^Flow, /).first();
  await flow.waitFor();

  await page.getByRole("button", { name: "How it was read", exact: true }).click();
  const sheet = page.getByRole("dialog");
  await sheet.getByRole("combobox", { name: "Unit of Flow [gpm]" }).selectOption("L/min");
  await expect.poll(() => sheet.getByRole("combobox", { name: "Unit of Flow [gpm]" }).inputValue()).toBe("L/min");
  await page.keyboard.press("Escape");
  await page.getByRole("heading", { name: "What this log shows" }).waitFor();

  await page.getByRole("heading", { name: /^Pressure oscillates: period 20\.0/ }).waitFor();
  const ruler = () => page.locator(".time-tick > span:first-child").allTextContents();
  const whole = await ruler();
  await page
    .getByRole("button", { name: /^Show on trace: \d+ runs shorter than 60/ })
    .first()
    .click();
  await expect.poll(ruler).not.toEqual(whole);
  expect(errors).toEqual([]);
});
