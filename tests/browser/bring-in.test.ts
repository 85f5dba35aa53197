import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { bringIn, plainLog } from "./visits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

describe("bringing in a log", () => {
  test("a picked file shows its trace, its columns and its rows", async () => {
    const { page, errors } = await opened.fresh();
    await bringIn(page, plainLog("hill-farm.csv"));
    await page.getByRole("heading", { name: "What this log shows" }).waitFor();
    await page.getByRole("button", { name: "How it was read" }).click();
    const sheet = page.getByRole("dialog");
    await expect.poll(() => sheet.getByRole("combobox", { name: "What P1 [psi] stands for" }).inputValue()).toBe("pressure");
    expect(await sheet.getByText("May 3, 2024, 08:00:00").count()).toBe(1);
    expect(errors).toEqual([]);
  });
});
