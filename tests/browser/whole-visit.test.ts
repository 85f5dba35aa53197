import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { closeSheet, openSheet } from "./sheets";
import { untilKept } from "./store";
import { plainLog } from "./visits";
import { story } from "./waits";

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
  await story(page).waitFor();
  const flow = page.getByText(/^Flow, /).first();
  await flow.waitFor();

  const sheet = await openSheet(page, "How it was read");
  await sheet.getByRole("combobox", { name: "Unit of Flow [gpm]" }).selectOption("L/min");
  await expect.poll(() => sheet.getByRole("combobox", { name: "Unit of Flow [gpm]" }).inputValue()).toBe("L/min");
  // Until it is read again: its trace, and its window with it, is another from then on.
  await untilKept(page, '"unit":"L/min"');
  await closeSheet(page);
  await story(page).waitFor();

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
