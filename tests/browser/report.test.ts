import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import { US_UNITS } from "../../shared/units/unit-choice";
import { REPORT_SECTIONS, type ReportSectionId } from "../../src/report/report-input";
import { readRoundFile } from "../../src/views/round/round-entry";
import { roundRows } from "../../src/views/round/round-rows";
import { roundSummary } from "../../src/views/round/round-summary";
import { exampleDocument } from "../builders/report-input";
import { TOP } from "../house/source-files";
import { serious } from "./axe";
import { type OpenedPage, openPage } from "./open-page";
import { closeSheet, openSheet } from "./sheets";
import { holdAnswers } from "./slowed";
import { untilRead } from "./waits";

let opened: OpenedPage;
const home = mkdtempSync(join(tmpdir(), "report-"));
beforeAll(async () => {
  opened = await openPage();
});
afterAll(async () => {
  await opened.close();
  rmSync(home, { recursive: true, force: true });
});

const visit = (name: string) => join(TOP, "sample-data", "visits", name);

/** The report that the command line writes of the sample visits, before and after. */
function writeReport(name: string, ...options: readonly string[]): string {
  const out = join(home, name);
  const args = [
    join(TOP, ".ci", "command-line.mjs"),
    "report",
    visit("hillside-after.csv"),
    "--site",
    visit("hillside-after.site.json"),
    "--before",
    visit("hillside-before.csv"),
  ];
  const run = spawnSync(process.execPath, [...args, "--out", out, ...options], { encoding: "utf8" });
  expect(run.status, run.stderr).toBe(0);
  return readFileSync(out, "utf8");
}

/** An empty page: the program's own allows no foreign HTML. */
async function emptyPage(width = 800): Promise<Page> {
  const { page } = await opened.fresh({ viewport: { width, height: 900 } });
  return page.context().newPage();
}

async function printed(html: string): Promise<{ readonly pages: number; readonly title: string }> {
  const page = await emptyPage();
  await page.setContent(html);
  const pdf = (await page.pdf({ preferCSSPageSize: true, tagged: true })).toString("latin1");
  const title = await page.title();
  await page.context().close();
  return { pages: pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0, title };
}

const without = (...kept: readonly ReportSectionId[]) =>
  REPORT_SECTIONS.filter((id) => !kept.includes(id)).flatMap((id) => ["--leave-out", id]);

describe("the report in a real browser", () => {
  test.each(["A4", "Letter"])("the customer's page is one page of %s, and nothing runs over the margin", async (paper) => {
    const html = writeReport(`customer-${paper}.html`, "--paper", paper, ...without("customer"));
    expect((await printed(html)).pages).toBe(1);
    const page = await emptyPage(680);
    await page.setContent(html);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    await page.context().close();
  });

  test("all of it is printed on few pages, with headings in order, words for every picture, and no script needed", async () => {
    const html = writeReport("whole.html", "--letterhead", "Brook & Vale Water Service");
    const { pages, title } = await printed(html);
    expect(pages).toBeGreaterThanOrEqual(4);
    expect(pages).toBeLessThanOrEqual(9);
    expect(title).toContain("Hillside");
    const page = await emptyPage();
    await page.setContent(html);
    expect(await serious(page)).toEqual([]);
    const levels = await page.locator("h1, h2, h3").evaluateAll((all) => all.map((heading) => Number(heading.tagName[1])));
    expect(levels[0]).toBe(1);
    expect(levels.every((level, i) => i === 0 || level - levels[i - 1] <= 1)).toBe(true);
    const pictures = await page.getByRole("img").evaluateAll((all) => all.map((picture) => picture.getAttribute("aria-label") ?? ""));
    expect(pictures.length).toBeGreaterThanOrEqual(3);
    expect(pictures.every((words) => words.length > 20)).toBe(true);
    await page.context().close();
  });

  test("no label of a picture stands on another", async () => {
    const page = await emptyPage();
    await page.setContent(writeReport("labels.html"));
    const overlaps = await page.evaluate(() =>
      [...document.querySelectorAll("svg")].flatMap((picture) => {
        const boxes = [...picture.querySelectorAll("text")].map((text) => ({ words: text.textContent, box: text.getBoundingClientRect() }));
        return boxes.flatMap((a, i) =>
          boxes
            .slice(i + 1)
            .filter(
              (b) =>
                Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left) > 1 &&
                Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top) > 3,
            )
            .map((b) => `${a.words} / ${b.words}`),
        );
      }),
    );
    expect(overlaps).toEqual([]);
  });
});

test("asked for while the comparison is worked out with other facts, the report waits for it", async () => {
  const { page } = await opened.fresh();
  const answers = await holdAnswers(page);
  await page.locator("input[type=file]").first().setInputFiles(visit("hillside-after.csv"));
  await untilRead(page, "hillside-after.csv");
  const sheet = await openSheet(page, "Before and after");
  await page.getByLabel("Log of the earlier visit").setInputFiles(visit("hillside-before.csv"));
  await sheet.getByRole("row").filter({ hasText: "Starts per hour" }).filter({ hasText: "Better" }).waitFor();
  await closeSheet(page);
  await answers.hold();
  await openSheet(page, "Site facts");
  await page.getByRole("textbox", { name: "Set pressure" }).fill("60 psi");
  await page.keyboard.press("Enter");
  await closeSheet(page);
  const save = (await openSheet(page, "Report")).getByRole("button", { name: "Save the report" });
  expect(await save.isDisabled()).toBe(true);
  await answers.letGo();
  const [download] = await Promise.all([page.waitForEvent("download"), save.click()]);
  expect(readFileSync(await download.path(), "utf8")).toContain("<h2>Before and after</h2>");
});

describe("the round in a real browser", () => {
  test.each(["A4", "Letter"] as const)("its summary is one page of %s, however much there is to say", async (paper) => {
    const [visit] = readRoundFile("a.json", JSON.stringify(exampleDocument())).entries;
    const long = "A site whose name goes on for quite a while, as the names of estates do";
    const entries = Array.from({ length: 40 }, (_, i) => {
      const broken = ["over-marked-pressure", "sensor", "pump-performance", "leak-down"] as const;
      return { ...visit, key: String(i), digest: { ...visit.digest, site: `${long} ${i}`, broken, sheet: null } };
    });
    const html = roundSummary(roundRows(entries, NO_SITE_FACTS, US_UNITS), 1.78e12, paper, null);
    expect((await printed(html)).pages).toBe(1);
  });
});
