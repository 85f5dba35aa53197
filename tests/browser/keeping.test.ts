import { readFileSync } from "node:fs";
import type { Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readVisitFile } from "../../shared/schemas/visit-file";
import { type OpenedPage, openPage } from "./open-page";
import { closeSheet, openSheet } from "./sheets";
import { holdAnswers } from "./slowed";
import { isKept, stored, untilKept } from "./store";
import { bringIn, plainLog, textFile } from "./visits";
import { story, untilRead } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

const notes = (page: Page) => page.getByRole("textbox", { name: "Notes of this visit" });
const savedVisits = (page: Page) => page.getByLabel("Saved visits");

/** Letters in no order, since a browser may compress what it keeps; the same on every run. */
function incompressible(length: number): string {
  let state = 1;
  const letter = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return String.fromCharCode(97 + ((state >>> 24) % 26));
  };
  return Array.from({ length }, letter).join("");
}

async function visitWithNotes(page: Page, words: string, name = "hill-farm.csv"): Promise<void> {
  await bringIn(page, plainLog(name));
  await untilRead(page, name);
  await notes(page).fill(words);
  await untilKept(page, words);
}

describe("a visit kept in the browser", () => {
  test("survives a reload with its facts, notes and ticks", async () => {
    const { page, errors } = await opened.fresh();
    await visitWithNotes(page, "gate code 12");
    await openSheet(page, "Site facts");
    await page.getByRole("textbox", { name: "Set pressure" }).fill("52");
    await page.keyboard.press("Enter");
    await closeSheet(page);
    await page.getByRole("checkbox").first().check();
    await untilKept(page, '"done":true', '"setPressure":"52 psi"');
    await page.reload();
    await story(page).waitFor();
    expect(await notes(page).inputValue()).toBe("gate code 12");
    expect(await page.getByRole("checkbox").first().isChecked()).toBe(true);
    await openSheet(page, "Site facts");
    expect(await page.getByRole("textbox", { name: "Set pressure" }).inputValue()).toBe("52 psi");
    expect(errors).toEqual([]);
  });

  test("the browser is asked once to let it last, and the space it takes is shown", async () => {
    const { page: first } = await opened.fresh();
    const page = await first.context().newPage();
    await page.addInitScript(() => {
      const asked = { times: 0 };
      Object.assign(window, { asked });
      Object.defineProperty(navigator.storage, "persist", {
        value: () => {
          asked.times++;
          return Promise.resolve(true);
        },
      });
      Object.defineProperty(navigator.storage, "persisted", { value: () => Promise.resolve(asked.times > 0) });
    });
    await page.goto(opened.address);
    await visitWithNotes(page, "first note");
    await notes(page).fill("second note");
    await untilKept(page, "second note");
    expect(await page.evaluate(() => (window as unknown as { asked: { times: number } }).asked.times)).toBe(1);
    await openSheet(page, "Visits");
    await page
      .getByText(/^The visits take \d+(?:\.\d+)?\s?[kM]B\. This browser allows about .* It will not clear them by itself/)
      .waitFor();
  });

  test("where the browser promises nothing, the sheet says that it may clear them", async () => {
    const { page: first } = await opened.fresh();
    const page = await first.context().newPage();
    await page.addInitScript(() => {
      for (const name of ["persist", "persisted"]) Object.defineProperty(navigator.storage, name, { value: () => Promise.resolve(false) });
    });
    await page.goto(opened.address);
    await visitWithNotes(page, "first note");
    await openSheet(page, "Visits");
    await page.getByText(/^The visits take .* It may clear them when the device runs short of room\. They stay on this device/).waitFor();
  });

  test("survives a crash in the middle of saving: what is there is always whole", async () => {
    const { page } = await opened.fresh();
    const context = page.context();
    await visitWithNotes(page, "before the crash");
    const session = await context.newCDPSession(page);
    await notes(page).fill("x".repeat(2_000_000));
    await page.waitForTimeout(550); // saved after 500 ms: the transaction is under way or just about to begin
    await Promise.race([session.send("Page.crash").catch(() => {}), page.waitForEvent("crash")]);
    const after = await context.newPage();
    await after.goto(opened.address);
    await after.getByRole("button", { name: /^Open hill-farm/ }).waitFor();
    const visits = await stored(after);
    expect(visits).toHaveLength(1);
    const { visit, problem } = readVisitFile(visits[0].text);
    expect(problem).toBeNull();
    expect(["before the crash", "x".repeat(2_000_000)]).toContain(visit?.checklist?.notes);
    await after.getByRole("button", { name: /^Open hill-farm/ }).click();
    await story(after).waitFor();
  });

  test("says so where there is no room, and loses nothing that was kept", async () => {
    const page = await opened.ordinary();
    const session = await page.context().newCDPSession(page);
    const { origin } = new URL(opened.address);
    // From the start: the browser asks seldom how much room is left, and trusts its last answer in between.
    await session.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 1_000_000 });
    await page.reload();
    await visitWithNotes(page, "kept while there was room");
    await notes(page).fill(incompressible(1_500_000));
    await page.getByText("no room left for this visit").waitFor();
    expect(await isKept(page, "kept while there was room")).toBe(true);
    await session.send("Storage.overrideQuotaForOrigin", { origin });
    await notes(page).fill("room again");
    await untilKept(page, "room again");
    await page.getByText("no room left for this visit").waitFor({ state: "detached" });
  });

  test("in two tabs is never written over unseen", async () => {
    const { page } = await opened.fresh();
    await visitWithNotes(page, "first tab");
    const other = await page.context().newPage();
    await other.goto(opened.address);
    await other.getByRole("button", { name: /^Open hill-farm/ }).click();
    await story(other).waitFor();
    await notes(other).fill("second tab");
    await untilKept(other, "second tab");
    await notes(page).fill("first tab again");
    await page.getByText("changed in another tab").waitFor();
    expect(await isKept(page, "second tab")).toBe(true);
    await page.getByRole("button", { name: "Keep what stands here" }).click();
    await untilKept(page, "first tab again");
    await page.getByText("changed in another tab").waitFor({ state: "detached" });
  });

  test("keeps its last change also where another log takes its place at once", async () => {
    const { page } = await opened.fresh();
    await visitWithNotes(page, "first visit");
    // From here on no time passes for the page: what it does later it never does.
    await page.clock.install();
    await page.clock.pauseAt(Date.now() + 60_000);
    await page.getByRole("checkbox").first().check();
    await notes(page).press("End");
    await page.keyboard.type(", gate code 12");
    await bringIn(page, plainLog("second.csv"));
    await untilKept(page, "first visit, gate code 12", '"done":true');
  });

  test("can be deleted and put back", async () => {
    const { page } = await opened.fresh();
    await visitWithNotes(page, "to be put back");
    await openSheet(page, "Visits");
    await page.getByRole("button", { name: "Delete hill-farm.csv" }).click();
    await page.getByRole("button", { name: "Put back hill-farm.csv" }).click();
    await page.getByRole("button", { name: "Delete hill-farm.csv" }).waitFor();
    expect((await stored(page)).map((visit) => visit.deletedAt)).toEqual([null]);
    await closeSheet(page);
    await notes(page).fill("and worked on");
    await untilKept(page, "and worked on");
    expect(await page.getByText("changed in another tab").count()).toBe(0);
  });
});

describe("a visit as a file", () => {
  /** @param listed a visit that has to stand in the list before */
  async function savedFile(page: Page, button: string, listed: string): Promise<string> {
    const sheet = await openSheet(page, "Visits");
    await sheet.getByRole("button", { name: `Open ${listed}` }).waitFor();
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: button }).click()]);
    return download.path();
  }
  const findings = (page: Page) => page.locator(".finding h3").allTextContents();

  test("opened elsewhere gives the same findings, notes and facts", async () => {
    const { page } = await opened.fresh({ acceptDownloads: true });
    await visitWithNotes(page, "carried over");
    const said = await findings(page);
    const text = readFileSync(await savedFile(page, "Save this visit as a file", "hill-farm.csv"), "utf8");
    const { page: elsewhere } = await opened.fresh();
    await openSheet(elsewhere, "Visits");
    await savedVisits(elsewhere).setInputFiles(textFile("visit.evenhead.json", text));
    await closeSheet(elsewhere);
    await story(elsewhere).waitFor();
    expect(await findings(elsewhere)).toEqual(said);
    expect(await notes(elsewhere).inputValue()).toBe("carried over");
  });

  test("damaged in one part keeps the rest and says what was lost", async () => {
    const { page } = await opened.fresh({ acceptDownloads: true });
    await visitWithNotes(page, "survives damage");
    const text = readFileSync(await savedFile(page, "Save this visit as a file", "hill-farm.csv"), "utf8");
    const { page: elsewhere } = await opened.fresh();
    await openSheet(elsewhere, "Visits");
    await savedVisits(elsewhere).setInputFiles(textFile("visit.evenhead.json", text.replace('"trace":{', '"trace":{{')));
    await closeSheet(elsewhere);
    await story(elsewhere).waitFor();
    expect(await notes(elsewhere).inputValue()).toBe("survives damage");
    await elsewhere.getByText("The small picture of the trace: damaged and left out.").first().waitFor();
  });

  test("all visits go into one file and come back out of it", async () => {
    const { page } = await opened.fresh({ acceptDownloads: true });
    await visitWithNotes(page, "one of two", "one.csv");
    await visitWithNotes(page, "two of two", "two.csv");
    const zip = readFileSync(await savedFile(page, "Save all visits as one file", "two.csv"));
    const { page: elsewhere } = await opened.fresh();
    await openSheet(elsewhere, "Visits");
    await savedVisits(elsewhere).setInputFiles({ name: "all.zip", mimeType: "application/zip", buffer: zip });
    await elsewhere.getByRole("dialog").getByRole("button", { name: "Open two.csv" }).waitFor();
    expect((await stored(elsewhere)).filter((visit) => visit.hasLog)).toHaveLength(2);
  });

  test("never writes over a later state of the same visit that is kept here", async () => {
    const { page } = await opened.fresh({ acceptDownloads: true });
    await visitWithNotes(page, "as it was saved");
    const text = readFileSync(await savedFile(page, "Save this visit as a file", "hill-farm.csv"), "utf8");
    await closeSheet(page);
    await notes(page).fill("worked on since");
    await untilKept(page, "worked on since");
    await openSheet(page, "Visits");
    await savedVisits(page).setInputFiles(textFile("visit.evenhead.json", text));
    await expect.poll(async () => (await stored(page)).length).toBe(2);
    expect(await isKept(page, "worked on since")).toBe(true);
    expect(await isKept(page, "as it was saved")).toBe(true);
  });

  test("that is no visit is refused with a sentence", async () => {
    const { page } = await opened.fresh();
    await openSheet(page, "Visits");
    await savedVisits(page).setInputFiles(textFile("log.json", "Time,P1\n1,2\n"));
    await page.getByText("log.json is not a visit saved by Evenhead.").first().waitFor();
  });
});

describe("corrections", () => {
  const flow = (within: Locator) => within.getByRole("combobox", { name: "What Flow [gpm] stands for" });
  const roles = async (page: Page) =>
    (await stored(page, "corrections")).map((one) =>
      JSON.stringify(one)
        .match(/"role":"\w+"/g)
        ?.join(),
    );

  /** A log is corrected; another with the same headings is on the page, and its correction is offered. */
  async function offered(page: Page): Promise<void> {
    await bringIn(page, plainLog("first.csv"));
    await untilRead(page, "first.csv");
    await flow(await openSheet(page, "How it was read")).selectOption("other");
    await expect.poll(() => roles(page)).toEqual(['"role":"other"']);
    await closeSheet(page);
    await bringIn(page, plainLog("second.csv"));
    await page.getByRole("heading", { name: "You corrected a log with these headings before" }).waitFor();
  }

  test("are offered for the next log with the same headings, can be changed, and can be deleted", async () => {
    const { page } = await opened.fresh();
    await offered(page);
    expect(await page.getByText("Flow [gpm] is not used").count()).toBe(1);
    await page.getByRole("button", { name: "Read this one the same way" }).click();
    const review = await openSheet(page, "How it was read");
    await expect.poll(() => flow(review).inputValue()).toBe("other");
    await closeSheet(page);
    const visits = await openSheet(page, "Visits");
    await visits.getByRole("button", { name: 'Change "Flow [gpm] is not used"' }).click();
    await flow(visits).selectOption("flow");
    await expect.poll(() => roles(page)).toEqual(['"role":"flow"']);
    await visits.getByRole("button", { name: /^Delete the corrections for/ }).click();
    await visits.getByRole("button", { name: "Put back what was deleted" }).waitFor();
    await expect.poll(() => roles(page)).toEqual([]);
  });

  test("changed while a log is still being read as they said before stay as they were changed", async () => {
    const { page } = await opened.fresh();
    const answers = await holdAnswers(page);
    await offered(page);
    await answers.hold();
    await page.getByRole("button", { name: "Read this one the same way" }).click();
    const visits = await openSheet(page, "Visits");
    await visits.getByRole("button", { name: 'Change "Flow [gpm] is not used"' }).click();
    await flow(visits).selectOption("flow");
    await expect.poll(() => roles(page)).toEqual(['"role":"flow"']);
    await answers.letGo();
    // Kept with the choices that it was read by: whatever is remembered of them has been by now.
    await untilKept(page, "second.csv", '"role":"other"');
    expect(await roles(page)).toEqual(['"role":"flow"']);
  });

  test("two of one log changed one after the other both stand, however long the store takes", async () => {
    const { page } = await opened.fresh();
    await bringIn(page, plainLog("first.csv"));
    await untilRead(page, "first.csv");
    const review = await openSheet(page, "How it was read");
    await flow(review).selectOption("other");
    await review.getByRole("combobox", { name: "What Speed [Hz] stands for" }).selectOption("other");
    await expect.poll(() => roles(page)).toEqual(['"role":"other","role":"other"']);
    await closeSheet(page);
    const visits = await openSheet(page, "Visits");
    await visits.getByRole("button", { name: 'Change "Flow [gpm] is not used"' }).click();
    await visits.getByRole("button", { name: 'Change "Speed [Hz] is not used"' }).click();
    // In one go, as no hand could: nothing of the store is heard in between.
    await visits.getByRole("combobox").evaluateAll((fields) => {
      for (const [i, role] of ["flow", "current"].entries()) {
        const field = fields[i] as HTMLSelectElement;
        field.value = role;
        field.dispatchEvent(new Event("change", { bubbles: true }));
      }
    });
    await expect.poll(() => roles(page)).toEqual(['"role":"flow","role":"current"']);
  });

  test("that were offered and left stay away while facts of the visit are entered", async () => {
    const { page } = await opened.fresh();
    await offered(page);
    await page.getByRole("button", { name: "Leave it as it was read" }).click();
    await openSheet(page, "Site facts");
    await page.getByRole("textbox", { name: "Set pressure" }).fill("52");
    await page.keyboard.press("Enter");
    await closeSheet(page);
    await untilKept(page, "second.csv", '"setPressure":"52 psi"');
    expect(await page.getByRole("heading", { name: "You corrected a log with these headings before" }).count()).toBe(0);
  });
});
