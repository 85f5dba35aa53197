import { readFileSync } from "node:fs";
import type { Download, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { writeVisitFile } from "../../shared/schemas/visit-file";
import { visitFile } from "../builders/visit-files";
import { type OpenedPage, openPage } from "./open-page";
import { closeSheet, openSheet } from "./sheets";
import { bringIn, plainLog, textFile } from "./visits";
import { story } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

const HIT = "<img src=x onerror=\"window.hit='markup'\">";
/** Names that would become markup, an attribute, an address, a formula, a style or a part of every object. */
const HEADINGS = [
  `Pressure ${HIT} [psi]`,
  `=HYPERLINK("https://elsewhere.example","x")`,
  "__proto__",
  "constructor",
  "javascript:window.hit='address'",
  `"><script>window.hit='script'</script>`,
  "' style='background:url(https://elsewhere.example/x)' onmouseover='window.hit=1",
  "@SUM(1+1)",
];

/** A log that is one, with hostile names in preamble, headings and a text column. */
function hostileLog() {
  const log = plainLog("x.csv").buffer.toString("utf8").split("\n");
  const cell = (text: string) => `"${text.replaceAll('"', '""')}"`;
  const extra = HEADINGS.slice(1);
  const rows = log.map((line, i) => {
    if (i === 0) return `Site: ${HIT}`;
    if (i === 1) return ["Time", cell(HEADINGS[0]), "Flow [gpm]", "Speed [Hz]", ...extra.map(cell), "Remark"].join(",");
    return line === "" ? "" : `${line},${extra.map((_, k) => (i * (k + 3)) % 17).join(",")},${cell(i % 2 === 0 ? HIT : "=1+1")}`;
  });
  return textFile(`${HIT.replaceAll("/", "")}.csv`, rows.join("\n"));
}

/** Opens a page that remembers every try: a dialog, an address outside, a broken rule of the policy, anything that ran. */
async function watched() {
  const tries: string[] = [];
  const { page, errors } = await opened.fresh({ acceptDownloads: true });
  page.on("dialog", (dialog) => {
    tries.push(`dialog ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.context().on("request", (request) => {
    if (!request.url().startsWith(opened.address) && !/^(?:blob|data):/.test(request.url())) tries.push(`request ${request.url()}`);
  });
  await page.evaluate(() => document.addEventListener("securitypolicyviolation", (e) => console.error(`policy ${e.violatedDirective}`)));
  const judge = async () => {
    expect(await page.evaluate(() => (window as unknown as { hit?: string }).hit ?? null)).toBeNull();
    expect(await page.evaluate(() => Object.keys(Object.prototype).concat(Object.keys(Array.prototype)))).toEqual([]);
    expect(
      await page.locator("img[src='x'], script:not([src]), iframe, object, [onerror], [onmouseover], a[href^='javascript']").count(),
    ).toBe(0);
    expect(tries).toEqual([]);
    expect(errors).toEqual([]);
  };
  return { page, judge };
}

const saved = async (page: Page, button: string): Promise<string> => {
  const [download]: [Download, unknown] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button }).first().click(),
  ]);
  expect(download.suggestedFilename()).not.toMatch(/[<>"/\\:|?*]/);
  return readFileSync((await download.path()) ?? "", "utf8");
};

describe("names and cells of a hostile file stay text", () => {
  test("through the story, every sheet, the report and what is exported", async () => {
    const { page, judge } = await watched();
    await bringIn(page, hostileLog());
    await story(page).waitFor();
    await page.getByText("Pressure <img src=x", { exact: false }).first().waitFor();
    await judge();

    for (const sheet of ["How it was read", "Site facts", "Acceptance", "What if", "Before and after", "Report"]) {
      await openSheet(page, sheet);
      await page.waitForTimeout(150);
      await judge();
      if (sheet === "Report") {
        const html = await saved(page, "Save the report");
        expect(html).toContain("&lt;img src=x");
        expect(html).not.toMatch(/<script|<img|<iframe|\son[a-z]+="|href=|<a /i);
        const reader = await page.context().newPage();
        await reader.setContent(html);
        expect(await reader.evaluate(() => (window as unknown as { hit?: string }).hit ?? null)).toBeNull();
        await reader.close();
      }
      await closeSheet(page);
    }
    const csv = await saved(page, "Save the events as CSV");
    for (const line of csv.split("\r\n"))
      for (const cell of line.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/)) expect(cell).not.toMatch(/^"?[=+@]/);
    await judge();
  });

  test("in a visit file: what is of the wrong form is left out, the rest is shown as text", async () => {
    const { page, judge } = await watched();
    const sound = visitFile({ log: null, about: { id: "<b>1</b>", title: HIT, saved: "2024-05-04T10:00:00.000Z", program: HIT } });
    const notes = { entries: [{ step: "__proto__", done: true, note: HIT }], notes: `${HIT}\n</textarea><script>window.hit=1</script>` };
    const text = writeVisitFile({ ...sound, checklist: notes, site: { name: HIT, setPressure: "javascript:1", constructor: "x" } }).replace(
      "{",
      '{"__proto__":{"hit":"prototype"},"constructor":{"prototype":{"hit":"prototype"}},',
    );
    await openSheet(page, "Visits");
    await page
      .getByLabel("Saved visits")
      .setInputFiles([{ name: `${HIT.replaceAll("/", "")}.json`, mimeType: "application/json", buffer: Buffer.from(text) }]);
    await page.getByText("<img src=x", { exact: false }).first().waitFor();
    await judge();
    await page.reload();
    await page.waitForTimeout(300);
    await judge();
  });
});
