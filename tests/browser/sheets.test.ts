import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { openSheet } from "./sheets";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

test("a sheet opened while the one before is still closing stays open", async () => {
  const { page } = await opened.fresh();
  const sheet = await openSheet(page, "Round");
  // A dialog tells of its closing in a task of its own (HTML standard, "close the dialog"): here the next sheet is asked for before that.
  const next = page.getByRole("button", { name: "Visits", exact: true, includeHidden: true });
  await next.evaluate((button: HTMLButtonElement) => {
    document.querySelector("dialog")?.close();
    button.click();
  });
  await page.getByRole("heading", { name: "Visits kept in this browser" }).waitFor();
  await page.evaluate(() => new Promise((done) => setTimeout(done, 100)));
  expect(await sheet.count()).toBe(1);
  await sheet.getByRole("button", { name: "Close", exact: true }).click();
  await sheet.waitFor({ state: "detached" });
});
