import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { stored, untilKept } from "./store";
import { bringIn, plainLog } from "./visits";
import { story } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

const notes = (page: Page) => page.getByRole("textbox", { name: "Notes of this visit" });

test("a browser that keeps nothing still shows the whole visit, and says that nothing is kept", async () => {
  const { page, errors } = await opened.fresh();
  await page.addInitScript(() => {
    Object.defineProperty(window.IDBFactory.prototype, "open", {
      value: () => {
        throw new DOMException("The operation is insecure.", "SecurityError");
      },
    });
  });
  await page.reload();
  await bringIn(page, plainLog("hill-farm.csv"));
  await story(page).waitFor();
  await notes(page).fill("gate code 12");
  await page.getByText("keeps nothing here", { exact: false }).first().waitFor();
  expect(await notes(page).inputValue()).toBe("gate code 12");
  expect(errors).toEqual([]);
});

test("a read that the browser breaks off costs the list of visits, not the page", async () => {
  const { page, errors } = await opened.fresh();
  await page.addInitScript(() => {
    const getAll = IDBObjectStore.prototype.getAll;
    IDBObjectStore.prototype.getAll = function (...asked) {
      const request = getAll.apply(this, asked);
      this.transaction.abort();
      return request;
    };
  });
  await page.reload();
  await bringIn(page, plainLog("hill-farm.csv"));
  await story(page).waitFor();
  await notes(page).fill("gate code 12");
  // Seen from a page that is not broken.
  const other = await page.context().newPage();
  await other.goto(opened.address);
  await untilKept(other, "gate code 12");
  expect(await stored(other)).toHaveLength(1);
  expect(errors).toEqual([]);
});

test("a store that the browser wiped while the page was open is made anew by the next save", async () => {
  const { page, errors } = await opened.fresh();
  await bringIn(page, plainLog("hill-farm.csv"));
  await story(page).waitFor();
  await notes(page).fill("before");
  await untilKept(page, "before");
  const session = await page.context().newCDPSession(page);
  await session.send("Storage.clearDataForOrigin", { origin: new URL(opened.address).origin, storageTypes: "indexeddb" });
  await notes(page).fill("after the wipe");
  await untilKept(page, "after the wipe");
  await page.reload();
  await story(page).waitFor();
  expect(await notes(page).inputValue()).toBe("after the wipe");
  expect(errors).toEqual([]);
});
