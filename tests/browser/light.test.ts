import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
}, 120_000);
afterAll(() => opened.close());

test("a device that asks for more contrast gets black on white, until the person chooses another light", async () => {
  const { page } = await opened.fresh({ contrast: "more", colorScheme: "light" });
  const paper = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  expect(await paper()).toBe("rgb(255, 255, 255)");
  await page.getByRole("button", { name: "How it is shown" }).click();
  await page.getByRole("radio", { name: "Paper", exact: true }).check();
  expect(await paper()).toBe("rgb(246, 247, 243)");
});
