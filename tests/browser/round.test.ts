import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { writeVisitFile } from "../../shared/schemas/visit-file";
import { exampleDocument } from "../builders/report-input";
import { visitFile } from "../builders/visit-files";
import { TOP } from "../house/source-files";
import { serious } from "./axe";
import { type OpenedPage, openPage } from "./open-page";
import { openSheet } from "./sheets";
import { untilKept } from "./store";
import { bringIn, plainLog, textFile } from "./visits";
import { untilRead } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

/** Visits as the first version of the store kept them, each with its own text. */
async function keepInOldStore(page: Page, texts: readonly { readonly id: string; readonly text: string }[]): Promise<void> {
  await page.evaluate(
    (visits) =>
      new Promise<void>((done, fail) => {
        const opening = indexedDB.open("evenhead", 1);
        opening.onupgradeneeded = () => {
          opening.result.createObjectStore("visits", { keyPath: "id" });
          opening.result.createObjectStore("logs", { keyPath: "id" });
          opening.result.createObjectStore("corrections", { keyPath: "signature" });
        };
        opening.onerror = () => fail(opening.error);
        opening.onsuccess = () => {
          const work = opening.result.transaction("visits", "readwrite");
          for (const { id, text } of visits)
            work.objectStore("visits").put({
              id,
              title: id,
              files: [],
              saved: 1,
              revision: 1,
              deletedAt: null,
              bytes: text.length,
              logBytes: 0,
              hasLog: false,
              text,
            });
          work.oncomplete = () => {
            opening.result.close();
            done();
          };
        };
      }),
    texts,
  );
}

const keptText = (id: string, site: string, to: string) => {
  const document = exampleDocument();
  const findings = { ...document, site: { name: { value: site, unit: null, from: "given" } }, record: { ...document.record, to } };
  return writeVisitFile(
    visitFile({ about: { id, title: site, saved: "2024-05-04T10:00:00.000Z", program: "0.1.0" }, findings, log: null }),
  );
};

describe("the round", () => {
  test("visits of the first store come over whole, with their place in the round", async () => {
    const { page } = await opened.fresh();
    // A page of the same origin without the program: the old store is there before it, and nothing else holds the new one.
    await page.goto(new URL("/icon.svg", opened.address).href);
    await page.evaluate(() => new Promise((done) => Object.assign(indexedDB.deleteDatabase("evenhead"), { onsuccess: done })));
    await keepInOldStore(page, [{ id: "old-1", text: keptText("old-1", "Mill Lane", "2026-03-02T00:00:00Z") }]);
    await page.goto(opened.address);
    await page.getByRole("button", { name: /^Open old-1/ }).waitFor();
    await openSheet(page, "Round");
    await page.getByRole("row").filter({ hasText: "Mill Lane" }).filter({ hasText: "Pressure oscillates" }).waitFor();
    await page.getByRole("dialog").getByRole("button", { name: "Open Mill Lane" }).click();
    await page.getByText("Ask for the key at the farm.").waitFor();
  });

  test("opens the visit that is asked for, not only the list", async () => {
    const { page } = await opened.fresh();
    for (const name of ["one.csv", "two.csv"]) {
      await bringIn(page, plainLog(name));
      await untilRead(page, name);
      await untilKept(page, name);
    }
    await openSheet(page, "Round");
    await page.getByRole("button", { name: "Open one.csv" }).click();
    await untilRead(page, "one.csv");
    await page.getByRole("dialog").waitFor({ state: "detached" });
  });

  test("a folder opens, each record once, and what is no visit is passed over", async () => {
    const { page } = await opened.fresh();
    await openSheet(page, "Round");
    const document = JSON.stringify(exampleDocument());
    await page
      .getByLabel("Visit files or findings")
      .setInputFiles([
        textFile("findings.jsonl", `${document}\n`),
        textFile("a.csv.findings.json", JSON.stringify({ stamp: {}, document: exampleDocument() })),
        textFile("b.evenhead.json", keptText("b", "Brook", "2026-03-02T00:00:00Z")),
        textFile("notes.json", "{}"),
      ]);
    await page.getByText("2 of 2 sites").waitFor();
    await page.getByText("1 visits came twice").waitFor();
    await page.getByText("notes.json is neither a visit file nor a findings document").waitFor();
    await page.getByRole("button", { name: "Open Brook" }).click();
    await page.getByText("Ask for the key at the farm.").waitFor();
  });

  test("with 5,000 kept visits only those in sight are in the page, a search answers at once, and paper holds all", async () => {
    const { page } = await opened.fresh();
    const sites = 5000;
    const { findings: _f, ...rest } = visitFile();
    await page.evaluate(
      ({ count, text }) =>
        new Promise<void>((done, fail) => {
          const opening = indexedDB.open("evenhead");
          opening.onerror = () => fail(opening.error);
          opening.onsuccess = () => {
            const work = opening.result.transaction(["visits", "texts"], "readwrite");
            for (let i = 0; i < count; i++) {
              const id = `visit-${i}`;
              const short = i % 9 === 0 ? i + 1 : 0;
              const check = (name: string, state: string, value: number, high: number) => ({
                ...{ id: name, state, measured: { value, low: value, high: value }, low: null, high, isOwn: false },
              });
              const checks = [
                check("marked-pressure", "met", 4e5, 8e5),
                check("starts-per-hour", "met", i % 40, 40),
                check("short-cycles", short === 0 ? "met" : "not-met", short, 0),
                check("drift", "met", 5000 + i, 34474),
                check("oscillation", "met", 9000 + i, 20684),
              ];
              const digest = {
                form: 2,
                site: `Site ${i}`,
                title: "log.csv",
                to: 1.77e12 + i,
                error: null,
                broken: short === 0 ? [] : ["short-cycles"],
                sheet: { checks, bandPa: 20684, isOwnBand: false, allowedStarts: 40, shortestRunS: 30, shortLimitS: 60 },
                starts: i % 40,
                shortCycles: 0,
                cause: null,
                trace: "M1 2V9",
                record: id,
              };
              work.objectStore("visits").put({
                id,
                title: id,
                files: ["log.csv"],
                saved: i,
                revision: 1,
                deletedAt: null,
                bytes: 1,
                logBytes: 0,
                hasLog: false,
                digest,
              });
              work.objectStore("texts").put({ id, text });
            }
            work.oncomplete = () => {
              opening.result.close();
              done();
            };
          };
        }),
      { count: sites, text: JSON.stringify(rest) },
    );
    await page.reload();
    await openSheet(page, "Round");
    await page.getByText(`${sites} of ${sites} sites, 556 need attention.`).waitFor();
    expect(await page.locator(".round-row").count()).toBeLessThan(40);
    await page.locator(".round-frame").evaluate((frame) => frame.scrollTo(0, frame.scrollHeight));
    await page.getByRole("row").filter({ hasText: "Site 998" }).waitFor();
    await page.getByLabel("Search", { exact: true }).fill("site 4321");
    await page.getByText("1 of 5000 sites").waitFor();
    await page.getByLabel("Search", { exact: true }).fill("runs shorter than the limit");
    await page.getByText("556 of 5000 sites").waitFor();
    expect(await serious(page)).toEqual([]);
    const printed = await page.evaluate(() => {
      window.dispatchEvent(new Event("beforeprint"));
      const rows = document.querySelectorAll(".round-row").length;
      window.dispatchEvent(new Event("afterprint"));
      return rows;
    });
    expect(printed).toBe(556);
  });
});

describe("kept visits are compared without their logs", () => {
  test("one out of the store against the visit on the page", async () => {
    const { page } = await opened.fresh();
    await bringIn(page, {
      name: "spring.csv",
      mimeType: "text/csv",
      buffer: readFileSync(join(TOP, "sample-data", "visits", "hillside-before.csv")),
    });
    await untilRead(page, "spring.csv");
    await untilKept(page, "spring.csv");
    await page.evaluate(
      () =>
        new Promise<void>((done) => {
          const opening = indexedDB.open("evenhead");
          opening.onsuccess = () => {
            const work = opening.result.transaction("logs", "readwrite");
            work.objectStore("logs").clear();
            work.oncomplete = () => {
              opening.result.close();
              done();
            };
          };
        }),
    );
    await bringIn(page, {
      name: "autumn.csv",
      mimeType: "text/csv",
      buffer: readFileSync(join(TOP, "sample-data", "visits", "hillside-after.csv")),
    });
    await untilRead(page, "autumn.csv");
    const dialog = await openSheet(page, "Before and after");
    const spring = dialog.getByRole("option").filter({ hasText: "spring.csv" }).first();
    await dialog.getByLabel("Before", { exact: true }).selectOption({ label: (await spring.textContent()) ?? "" });
    await dialog.getByRole("row").filter({ hasText: "Short cycles per day" }).filter({ hasText: "Met" }).waitFor();
    await expect.poll(() => dialog.getByRole("img").count()).toBe(2);
    expect(await serious(page)).toEqual([]);
    // The comparison is kept with the visit: it is there again after a reload, and in the report.
    const said = await dialog.getByRole("table").first().textContent();
    await untilKept(page, "autumn.csv", '"before":{');
    await page.reload();
    await untilRead(page, "autumn.csv");
    await openSheet(page, "Before and after");
    await dialog.getByRole("row").filter({ hasText: "Short cycles per day" }).filter({ hasText: "Met" }).waitFor();
    expect(await dialog.getByRole("table").first().textContent()).toBe(said);
    await dialog.getByLabel("Before", { exact: true }).selectOption({ index: 0 });
    await dialog.getByRole("table").waitFor({ state: "detached" });
  });
});
