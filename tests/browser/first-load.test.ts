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
    if (response.url().endsWith(".js") && response.request().serviceWorker() === null) scripts.push(response);
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
