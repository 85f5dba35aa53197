import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { TOP } from "../house/source-files";
import { type OpenedPage, openPage } from "./open-page";
import { bringIn, plainLog } from "./visits";
import { story } from "./waits";

let opened: OpenedPage;
const folder = mkdtempSync(join(tmpdir(), "evenhead-same-"));
beforeAll(async () => {
  opened = await openPage();
});
afterAll(async () => {
  await opened.close();
  rmSync(folder, { recursive: true, force: true });
});

const log = plainLog("hill-farm.csv");

/** What the page's worker makes of the log, saved as a person saves it. */
async function fromPage(timezoneId: string, locale: string): Promise<string> {
  const { page, errors } = await opened.fresh({ timezoneId, locale, acceptDownloads: true });
  await bringIn(page, log);
  await story(page).waitFor();
  const save = page.getByRole("button", { name: "Save the findings as JSON" }).first();
  const [download] = await Promise.all([page.waitForEvent("download"), save.click()]);
  expect(errors).toEqual([]);
  return readFileSync((await download.path()) ?? "", "utf8");
}

const withoutSentences = (document: string): unknown =>
  JSON.parse(document, (_, value: unknown) => (typeof value === "string" && /\s/.test(value) ? "a sentence" : value));

test("the page and the command line give one findings document, byte for byte, in any zone and language", async () => {
  const path = join(folder, log.name);
  writeFileSync(path, log.buffer);
  const program = join(TOP, ".ci", "command-line.mjs");
  const { stdout } = spawnSync(process.execPath, [program, "analyse", path, "--json"], { encoding: "utf8", maxBuffer: 1 << 28 });
  const document = JSON.parse(stdout);
  expect(document.findings.length).toBeGreaterThan(3);
  expect(document.causes.length).toBeGreaterThan(10);
  for (const zone of ["UTC", "Asia/Kathmandu"]) expect(await fromPage(zone, "en-US"), zone).toBe(stdout);
  // A person's language chooses the units that sentences are written in, and nothing else.
  expect(withoutSentences(await fromPage("America/St_Johns", "de-DE"))).toEqual(withoutSentences(stdout));
});
