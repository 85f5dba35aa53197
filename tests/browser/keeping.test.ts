import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readVisitFile } from "../../shared/schemas/visit-file";
import { type OpenedPage, openPage } from "./open-page";
import { bringIn, plainLog, textFile } from "./visits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

const story = (page: Page) => page.getByRole("heading", { name: "What this log shows" });
const notes = (page: Page) => page.getByRole("textbox", { name: "Notes of this visit" });

/** What the store holds of every visit. */
type Stored = { readonly id: string; readonly text: string; readonly deletedAt: number | null; readonly hasLog: boolean };
const stored = (page: Page, store: "visits" | "corrections" = "visits") =>
  page.evaluate(
    (name) =>
      new Promise<Stored[]>((done, fail) => {
        const opening = indexedDB.open("evenhead");
        opening.onerror = () => fail(opening.error);
        opening.onsuccess = () => {
          const work = opening.result.transaction([name, "texts"]);
          const all = work.objectStore(name).getAll();
          const texts = work.objectStore("texts").getAll();
          work.oncomplete = () => {
            opening.result.close();
            const textOf = (id: string) => texts.result.find((kept: { id: string }) => kept.id === id)?.text ?? "";
            done(all.result.map((visit: Stored) => ({ ...visit, text: textOf(visit.id) })));
          };
        };
      }),
    store,
  );

const isKept = async (page: Page, what: (text: string) => boolean) => (await stored(page)).some(({ text }) => what(text));
const waitUntilKept = (page: Page, words: string) =>
  expect.poll(() => isKept(page, (text) => text.includes(words)), { timeout: 10_000 }).toBe(true);

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
  await page.locator(".masthead-what", { hasText: name }).waitFor();
  await story(page).waitFor();
  await notes(page).fill(words);
  await waitUntilKept(page, words);
}

describe("a visit kept in the browser", () => {
  test("survives a reload with its facts, notes and ticks", async () => {
    const { page, errors } = await opened.fresh();
    await visitWithNotes(page, "gate code 12");
    await page.getByRole("button", { name: "Site facts" }).click();
    await page.getByRole("textbox", { name: "Set pressure" }).fill("52");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Escape");
    await page.getByRole("checkbox").first().check();
    await waitUntilKept(page, '"done":true');
    await waitUntilKept(page, '"setPressure":"52 psi"');
    await page.reload();
    await story(page).waitFor();
    expect(await notes(page).inputValue()).toBe("gate code 12");
    expect(await page.getByRole("checkbox").first().isChecked()).toBe(true);
    await page.getByRole("button", { name: "Site facts" }).click();
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
    });
    await page.goto(opened.address);
    await visitWithNotes(page, "first note");
    await notes(page).fill("second note");
    await waitUntilKept(page, "second note");
    expect(await page.evaluate(() => (window as unknown as { asked: { times: number } }).asked.times)).toBe(1);
    await page.getByRole("button", { name: "Visits" }).click();
    await page.getByText(/^The visits take \d+(?:\.\d+)?\s?[kM]B\. This browser allows about/).waitFor();
  });

  test("survives a crash in the middle of saving: what is there is always whole", async () => {
    const { page } = await opened.fresh();
    const context = page.context();
    await visitWithNotes(page, "before the crash");
    const session = await context.newCDPSession(page);
    await notes(page).fill("x".repeat(2_000_000));
    await page.waitForTimeout(950); // note 400 ms, save 500 ms: the transaction is under way or just about to begin
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
    expect(await isKept(page, (text) => text.includes("kept while there was room"))).toBe(true);
    await session.send("Storage.overrideQuotaForOrigin", { origin });
    await notes(page).fill("room again");
    await waitUntilKept(page, "room again");
    expect(await page.getByText("no room left for this visit").count()).toBe(0);
    await page.context().close();
  });

  test("in two tabs is never written over unseen", async () => {
    const { page } = await opened.fresh();
    await visitWithNotes(page, "first tab");
    const other = await page.context().newPage();
    await other.goto(opened.address);
    await other.getByRole("button", { name: /^Open hill-farm/ }).click();
    await story(other).waitFor();
    await notes(other).fill("second tab");
    await waitUntilKept(other, "second tab");
    await notes(page).fill("first tab again");
    await page.getByText("changed in another tab").waitFor();
    expect(await isKept(page, (text) => text.includes("second tab"))).toBe(true);
    await page.getByRole("button", { name: "Keep what stands here" }).click();
    await waitUntilKept(page, "first tab again");
    expect(await page.getByText("changed in another tab").count()).toBe(0);
  });

  test("can be deleted and put back", async () => {
    const { page } = await opened.fresh();
    await visitWithNotes(page, "to be put back");
    await page.getByRole("button", { name: "Visits" }).click();
    await page.getByRole("button", { name: "Delete hill-farm.csv" }).click();
    await page.getByRole("button", { name: "Put back hill-farm.csv" }).click();
    await page.getByRole("button", { name: "Delete hill-farm.csv" }).waitFor();
    expect((await stored(page)).map((visit) => visit.deletedAt)).toEqual([null]);
    await page.keyboard.press("Escape");
    await notes(page).fill("and worked on");
    await waitUntilKept(page, "and worked on");
    expect(await page.getByText("changed in another tab").count()).toBe(0);
  });
});

describe("a visit as a file", () => {
  async function savedFile(page: Page, button: string): Promise<string> {
    await page.getByRole("button", { name: "Visits" }).click();
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: button }).click()]);
    return download.path();
  }
  const findings = (page: Page) => page.locator(".finding h3").allTextContents();

  test("opened elsewhere gives the same findings, notes and facts", async () => {
    const { page } = await opened.fresh({ acceptDownloads: true });
    await visitWithNotes(page, "carried over");
    const said = await findings(page);
    const text = readFileSync(await savedFile(page, "Save this visit as a file"), "utf8");
    const { page: elsewhere } = await opened.fresh();
    await elsewhere.getByRole("button", { name: "Visits" }).click();
    await elsewhere.getByLabel("Saved visits").setInputFiles(textFile("visit.evenhead.json", text));
    await elsewhere.keyboard.press("Escape");
    await story(elsewhere).waitFor();
    expect(await findings(elsewhere)).toEqual(said);
    expect(await notes(elsewhere).inputValue()).toBe("carried over");
  });

  test("damaged in one part keeps the rest and says what was lost", async () => {
    const { page } = await opened.fresh({ acceptDownloads: true });
    await visitWithNotes(page, "survives damage");
    const text = readFileSync(await savedFile(page, "Save this visit as a file"), "utf8");
    const { page: elsewhere } = await opened.fresh();
    await elsewhere.getByRole("button", { name: "Visits" }).click();
    await elsewhere.getByLabel("Saved visits").setInputFiles(textFile("visit.evenhead.json", text.replace('"trace":{', '"trace":{{')));
    await elsewhere.keyboard.press("Escape");
    await story(elsewhere).waitFor();
    expect(await notes(elsewhere).inputValue()).toBe("survives damage");
    await elsewhere.getByText("The small picture of the trace: damaged and left out.").first().waitFor();
  });

  test("all visits go into one file and come back out of it", async () => {
    const { page } = await opened.fresh({ acceptDownloads: true });
    await visitWithNotes(page, "one of two", "one.csv");
    await visitWithNotes(page, "two of two", "two.csv");
    const zip = readFileSync(await savedFile(page, "Save all visits as one file"));
    const { page: elsewhere } = await opened.fresh();
    await elsewhere.getByRole("button", { name: "Visits" }).click();
    await elsewhere.getByLabel("Saved visits").setInputFiles({ name: "all.zip", mimeType: "application/zip", buffer: zip });
    await elsewhere.getByRole("dialog").getByRole("button", { name: "Open two.csv" }).waitFor();
    expect((await stored(elsewhere)).filter((visit) => visit.hasLog)).toHaveLength(2);
  });

  test("never writes over a later state of the same visit that is kept here", async () => {
    const { page } = await opened.fresh({ acceptDownloads: true });
    await visitWithNotes(page, "as it was saved");
    const text = readFileSync(await savedFile(page, "Save this visit as a file"), "utf8");
    await page.keyboard.press("Escape");
    await notes(page).fill("worked on since");
    await waitUntilKept(page, "worked on since");
    await page.getByRole("button", { name: "Visits" }).click();
    await page.getByLabel("Saved visits").setInputFiles(textFile("visit.evenhead.json", text));
    await expect.poll(async () => (await stored(page)).length, { timeout: 10_000 }).toBe(2);
    expect(await isKept(page, (kept) => kept.includes("worked on since"))).toBe(true);
    expect(await isKept(page, (kept) => kept.includes("as it was saved"))).toBe(true);
  });

  test("that is no visit is refused with a sentence", async () => {
    const { page } = await opened.fresh();
    await page.getByRole("button", { name: "Visits" }).click();
    await page.getByLabel("Saved visits").setInputFiles(textFile("log.json", "Time,P1\n1,2\n"));
    await page.getByText("log.json is not a visit saved by Evenhead.").first().waitFor();
  });
});

describe("corrections", () => {
  test("are offered for the next log with the same headings, and can be deleted", async () => {
    const { page } = await opened.fresh();
    await bringIn(page, plainLog("first.csv"));
    await story(page).waitFor();
    await page.getByRole("button", { name: "How it was read" }).click();
    await page.getByRole("combobox", { name: "What Flow [gpm] stands for" }).selectOption("other");
    await expect.poll(async () => (await stored(page, "corrections")).length, { timeout: 15_000 }).toBe(1);
    await page.keyboard.press("Escape");
    await bringIn(page, plainLog("second.csv"));
    await page.getByRole("heading", { name: "You corrected a log with these headings before" }).waitFor();
    expect(await page.getByText("Flow [gpm] is not used").count()).toBe(1);
    await page.getByRole("button", { name: "Read this one the same way" }).click();
    await page.getByRole("button", { name: "How it was read" }).click();
    await expect.poll(() => page.getByRole("combobox", { name: "What Flow [gpm] stands for" }).inputValue()).toBe("other");
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Visits" }).click();
    await page.getByRole("button", { name: 'Change "Flow [gpm] is not used"' }).click();
    await page.getByRole("combobox", { name: "What Flow [gpm] stands for" }).last().selectOption("flow");
    await expect.poll(async () => JSON.stringify(await stored(page, "corrections")), { timeout: 15_000 }).toContain('"role":"flow"');
    await page.getByRole("button", { name: /^Delete the corrections for/ }).click();
    await page.getByRole("button", { name: "Put back what was deleted" }).waitFor();
  });
});
