import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { CLOSER_LOOKS, lookTitle } from "../../shared/wording/closer-look";
import { type OpenedPage, openPage } from "./open-page";
import { bringIn, leakyLog, type TextFile } from "./visits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

async function shown(log: TextFile | null): Promise<Page> {
  const { page } = await opened.fresh({ viewport: { width: 1440, height: 900 } });
  if (log === null) await page.getByRole("button", { name: "Open the sample visit" }).click();
  else await bringIn(page, log);
  await page.getByRole("heading", { name: "Next visit" }).waitFor();
  return page;
}

type Taken = {
  readonly label: string;
  readonly head: readonly string[];
  readonly rows: readonly string[];
  readonly png: string;
};

/** One picture with all that can be taken along of it. */
async function take(page: Page, title: string): Promise<Taken> {
  await page.locator(".look-choices button", { hasText: title }).click();
  await page.locator('.look-place[aria-busy="false"] .chart').waitFor();
  const label = (await page.locator(".look-place .chart").getAttribute("aria-label")) ?? "";
  // What is not paper: axes, lines, names.
  const count = (canvas: HTMLCanvasElement) => {
    const { data } = canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height) ?? { data: [] as number[] };
    let count = 0;
    for (let i = 3; i < data.length; i += 4) if (data[i] > 0) count++;
    return count;
  };
  await expect.poll(() => page.locator(".look-place canvas").evaluate(count), { message: title }).toBeGreaterThan(2000);
  const [numbers] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the numbers" }).click()]);
  const [head, ...rows] = readFileSync(await numbers.path(), "utf8")
    .trim()
    .split("\r\n");
  const [picture] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the picture" }).click()]);
  const png = readFileSync(await picture.path())
    .subarray(1, 4)
    .toString("latin1");
  // The browser starts no more than ten downloads of a page within a second, and no hand asks for more: five looks take longer than that.
  await page.waitForTimeout(250);
  return { label, head: head.match(/"[^"]*"|[^,]+/g) ?? [], rows, png };
}

/** Axes that count, or compare like with like, have no unit; every other names one. */
const WITHOUT_UNIT =
  /^"?(?:Agreement|agreement \(Agreement\)|starts \(Starts in the hour\)|runs \(Runs\)|rests \(Rests\)|Seconds since the record began)"?$/;
const UNIT = /, (?:psi|bar|gpm|L\/min|gal|L|s|min|per psi abs|per bar abs)\)?"?$/;

test("each closer look has axes with units, says in words what it shows, and goes along as picture and numbers", {
  timeout: 240_000,
}, async () => {
  const seen = new Set<string>();
  for (const log of [null, leakyLog("leak.csv")]) {
    const page = await shown(log);
    for (const title of await page.locator(".look-choices button").allTextContents()) {
      if (seen.has(title)) continue;
      seen.add(title);
      const { label, head, rows, png } = await take(page, title);
      expect(label, title).toMatch(new RegExp(`^${title.replace("'", ".")}\\. .*\\d`));
      for (const column of head) if (!WITHOUT_UNIT.test(column)) expect(column, title).toMatch(UNIT);
      expect(head.length, title).toBeGreaterThan(1);
      expect(rows.length, title).toBeGreaterThan(3);
      for (const cell of rows.flatMap((row) => row.split(","))) expect(Number.isFinite(Number(cell)), `${title}: ${cell}`).toBe(true);
      expect(png, title).toBe("PNG");
    }
    await page.context().close();
  }
  expect([...seen].sort()).toEqual(CLOSER_LOOKS.map(lookTitle).sort());
});
