import type { Page } from "playwright-core";
import { expect } from "vitest";

/** What the browser's store holds of a visit, with its text beside it. */
export type Stored = { readonly id: string; readonly text: string; readonly deletedAt: number | null; readonly hasLog: boolean };

/** What the browser's store holds; looking makes no empty one. To be polled: the page saves in its own time. */
export const stored = (page: Page, store: "visits" | "corrections" = "visits"): Promise<readonly Stored[]> =>
  page.evaluate(async (name) => {
    const known = await indexedDB.databases();
    if (!known.some((one) => one.name === "evenhead")) return [];
    return new Promise<Stored[]>((done, fail) => {
      const opening = indexedDB.open("evenhead");
      opening.onerror = () => fail(opening.error);
      opening.onsuccess = () => {
        const work = opening.result.transaction([name, "texts"]);
        const all = work.objectStore(name).getAll();
        const texts = work.objectStore("texts").getAll();
        work.onabort = () => fail(work.error);
        work.oncomplete = () => {
          opening.result.close();
          const textOf = (id: string) => texts.result.find((kept: { id: string }) => kept.id === id)?.text ?? "";
          done(all.result.map((visit: Stored) => ({ ...visit, text: textOf(visit.id) })));
        };
      };
    });
  }, store);

export const isKept = async (page: Page, ...words: readonly string[]): Promise<boolean> =>
  (await stored(page)).some(({ text }) => words.every((word) => text.includes(word)));

/** Until a visit is kept that says all of this. */
export const untilKept = (page: Page, ...words: readonly string[]): Promise<void> => expect.poll(() => isKept(page, ...words)).toBe(true);
