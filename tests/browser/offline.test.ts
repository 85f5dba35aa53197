import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { openSheet } from "./sheets";
import { story } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

test("once seen, the page opens and works without a network", async () => {
  const { page, errors } = await opened.fresh();
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await page.reload(); // from here on the kept copy stands behind the page
  await page.context().setOffline(true);
  await page.reload();
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await story(page).waitFor();
  await openSheet(page, "Site facts");
  expect(errors.filter((error) => !error.includes("ERR_INTERNET_DISCONNECTED"))).toEqual([]);
});

test("the browser finds nothing that keeps the page from being installed", async () => {
  const { page } = await opened.fresh();
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await page.reload();
  const browser = await page.context().newCDPSession(page);
  const { installabilityErrors } = await browser.send("Page.getInstallabilityErrors");
  // A test runs in a window that keeps nothing, where a browser installs no page at all.
  expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== "in-incognito")).toEqual([]);
  const { errors } = await browser.send("Page.getAppManifest");
  expect(errors).toEqual([]);
});
