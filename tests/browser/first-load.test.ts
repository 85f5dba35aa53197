import { gzipSync } from "node:zlib";
import type { Response } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

test("what is loaded before the first file is less than 160 kB of script, gzipped", async () => {
  const { page } = await opened.fresh();
  const scripts: Response[] = [];
  page.on("response", (response) => {
    // What the browser already has in the page's own store is not loaded.
    const isStored = response.fromServiceWorker() || response.request().serviceWorker() !== null;
    if (response.url().endsWith(".js") && !isStored) scripts.push(response);
  });
  await page.reload();
  await page.getByRole("button", { name: "Open the sample visit" }).waitFor();
  await page.waitForLoadState("networkidle");
  await expect.poll(() => page.workers().length).toBeGreaterThan(0);
  const worker = await fetch(page.workers()[0].url()).then((response) => response.text());
  const texts = [worker, ...(await Promise.all(scripts.filter((s) => !s.url().includes("worker")).map((s) => s.text())))];
  const size = texts.reduce((sum, text) => sum + gzipSync(text, { level: 9 }).length, 0);
  expect(texts.length).toBeGreaterThanOrEqual(2);
  expect(size).toBeLessThan(160_000);
  expect(size).toBeGreaterThan(50_000);
});

test("what a file needs is loaded once one is held over the page, before it is let go", async () => {
  const { page } = await opened.fresh({ serviceWorkers: "block" });
  const asked: string[] = [];
  page.on("request", (request) => asked.push(request.url()));
  const loads = (part: string) => asked.some((url) => url.includes(part));
  await page.getByRole("button", { name: "Open the sample visit" }).waitFor();
  expect(loads("file-reading")).toBe(false);
  await page.evaluate(() => document.body.dispatchEvent(new DragEvent("dragenter", { bubbles: true, dataTransfer: new DataTransfer() })));
  for (const part of ["file-reading", "working-out", "visit-page"]) await expect.poll(() => loads(part), { message: part }).toBe(true);
});

test("the first findings stand in the story's place before the whole story does", async () => {
  const { page } = await opened.fresh();
  await page.evaluate(() => {
    const told: string[] = [];
    const look = () => {
      for (const line of document.querySelectorAll(".found-so-far li")) if (!told.includes(line.textContent)) told.push(line.textContent);
    };
    new MutationObserver(look).observe(document.body, { childList: true, subtree: true });
    Object.assign(window, { told });
  });
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await page.getByRole("heading", { name: "Next visit" }).waitFor();
  const told = await page.evaluate(() => (window as unknown as { readonly told: readonly string[] }).told);
  expect(told.length).toBeGreaterThan(0);
  const titles = await page.locator("#findings ~ * h3").allTextContents();
  expect(titles).toEqual(expect.arrayContaining([told[0]]));
});
