import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { TOP } from "../house/source-files";
import { serious } from "./axe";
import { type OpenedPage, openPage } from "./open-page";
import { closeSheet, openSheet } from "./sheets";
import { untilKept } from "./store";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
const home = mkdtempSync(join(tmpdir(), "proof-"));
afterAll(async () => {
  await opened.close();
  rmSync(home, { recursive: true, force: true });
});

const visit = (name: string) => join(TOP, "sample-data", "visits", name);

/** A section of a report from its heading to its end. */
const sectionOf = (html: string, heading: string): string => {
  const from = html.indexOf(`<h2>${heading}</h2>`);
  expect(from).toBeGreaterThan(0);
  return html.slice(from, html.indexOf("</section>", from));
};

describe("proof that a change helped", () => {
  test("before and after, acceptance and what if stand on the visit; the report carries them and needs nothing to be read", async () => {
    const { page, errors } = await opened.fresh();
    await page.locator("input[type=file]").first().setInputFiles(visit("hillside-after.csv"));
    await page.getByRole("heading", { name: "Next visit" }).waitFor();

    await openSheet(page, "Before and after");
    await page.getByLabel("Log of the earlier visit").setInputFiles(visit("hillside-before.csv"));
    const rows = page.getByRole("dialog").getByRole("row");
    await rows.filter({ hasText: "Short cycles per day" }).filter({ hasText: "Met" }).waitFor();
    await rows.filter({ hasText: "Starts per hour" }).filter({ hasText: "Better" }).waitFor();
    expect(await serious(page), "Before and after").toEqual([]);
    await closeSheet(page);

    await openSheet(page, "Acceptance");
    await page.getByRole("row").filter({ hasText: "Runs shorter than the limit" }).filter({ hasText: "Met" }).waitFor();
    await page.getByText("Limits of your company", { exact: true }).click();
    const share = page.getByLabel("Share of running time within the band, at least");
    await share.fill("99.9");
    await share.press("Enter");
    await page
      .getByRole("row")
      .filter({ hasText: "within the band" })
      .filter({ hasText: "company limit" })
      .filter({ hasText: "Not met" })
      .waitFor();
    expect(await serious(page), "Acceptance").toEqual([]);
    const [limits] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save company limits as a file" }).click(),
    ]);
    expect(JSON.parse(readFileSync((await limits.path()) ?? "", "utf8"))).toMatchObject({
      format: "evenhead-limits",
      limits: { shareWithinBand: "99.9 %" },
    });
    await closeSheet(page);

    await openSheet(page, "Report");
    await page.getByLabel("Your letterhead, a line each").fill("Well & Pump <Service>");
    expect(await serious(page), "Report").toEqual([]);
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the report" }).click()]);
    const html = readFileSync((await download.path()) ?? "", "utf8");
    expect(html).toContain("Well &amp; Pump &lt;Service&gt;");
    expect(html).toContain("Before and after");
    expect(html).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)|javascript:/);
    expect(errors).toEqual([]);

    // Opened again, the visit still has what it is compared with; the command line writes the same report of its file.
    await closeSheet(page);
    await untilKept(page, '"before":{', 'shareWithinBand":"99.9 %"');
    await page.reload();
    await page.getByRole("heading", { name: "Next visit" }).waitFor();
    await openSheet(page, "Report");
    await page.getByLabel("Before and after").waitFor();
    const [again] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the report" }).click()]);
    expect(readFileSync((await again.path()) ?? "", "utf8")).toBe(html);
    await closeSheet(page);
    await openSheet(page, "Visits");
    const [saved] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save this visit as a file" }).click(),
    ]);
    const kept = join(home, "visit.evenhead.json");
    await saved.saveAs(kept);
    const written = join(home, "report.html");
    const args = ["report", kept, "--out", written, "--units", "us"];
    const run = spawnSync(process.execPath, [join(TOP, ".ci", "command-line.mjs"), ...args], { encoding: "utf8" });
    expect(run.status, run.stderr).toBe(0);
    const byCommand = readFileSync(written, "utf8");
    for (const heading of ["Acceptance", "Before and after", "Site facts"])
      expect(sectionOf(byCommand, heading)).toBe(sectionOf(html, heading));

    // Under other limits of the company the visit stays as it was kept until it is held against those of today.
    await page.evaluate(() => localStorage.setItem("evenhead-company-limits", '{"limits.startsPerHour":"1"}'));
    await page.reload();
    await page.getByRole("heading", { name: "Next visit" }).waitFor();
    await openSheet(page, "Acceptance");
    await page.getByRole("row").filter({ hasText: "within the band" }).filter({ hasText: "company limit" }).waitFor();
    await page.getByRole("button", { name: "Hold it against the limits of today" }).click();
    await page.getByRole("row").filter({ hasText: "within the band" }).filter({ hasText: "common practice" }).waitFor();
    await page.getByRole("button", { name: "Hold it against the limits of today" }).waitFor({ state: "detached" });

    const reader = await page.context().newPage();
    await reader.setContent(html);
    expect(await reader.getByRole("heading", { level: 2 }).allTextContents()).toEqual(
      expect.arrayContaining(["In plain words", "The record", "Findings", "Acceptance", "Before and after", "The record's fingerprint"]),
    );
    const pdf = await reader.pdf({ preferCSSPageSize: true, tagged: true });
    expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
  });

  test("the round opens what a bulk run wrote", async () => {
    const { page } = await opened.fresh();
    await openSheet(page, "Round");
    const line = JSON.stringify({
      format: "evenhead-findings",
      version: 1,
      program: "0.1.0",
      error: null,
      site: { name: { value: "Mill Lane" } },
      record: {
        files: [{ name: "a.csv", bytes: 1, sha256: null }],
        from: "2026-03-01T00:00:00Z",
        to: "2026-03-02T00:00:00Z",
        channels: [],
      },
      causes: [],
      cannotTell: [],
      advice: [],
      findings: [{ kind: "drift", title: "Pressure drifts", text: "", overLimit: true }],
    });
    await page
      .getByLabel("Visit files or findings")
      .setInputFiles({ name: "findings.jsonl", mimeType: "application/json", buffer: Buffer.from(`${line}\n`) });
    await page.getByRole("row").filter({ hasText: "Mill Lane" }).filter({ hasText: "Pressure drifts at steady flow." }).waitFor();
    expect(await serious(page)).toEqual([]);
  });
});
