import type { Locator, Page } from "playwright-core";
import { expect } from "vitest";

/*
 * A page under test may be slow, so that a test waits for what a person would wait for and never for a time. What is awaited by its words
 * or its role waits by itself (`waitFor`, `click`); what is read off the page is read with `expect.poll`. For the rest:
 */

export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

/** The story of the visit on the page: there once its findings are. */
export const story = (page: Page): Locator => page.getByRole("heading", { name: "What this log shows" });

/** Until the log of this name has been read and its findings stand on the page. */
export async function untilRead(page: Page, name: string): Promise<void> {
  await page.locator(".masthead-what", { hasText: name }).waitFor();
  await story(page).waitFor();
}

/** Until the page has drawn what it has been given so far. */
export const drawn = (page: Page): Promise<void> =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done()))));

/** Where an element lies once it has come to rest: what is aimed at by its place must not move on. */
export async function resting(element: Locator): Promise<Box> {
  let before = "";
  let box: Box | null = null;
  await expect
    .poll(async () => {
      await drawn(element.page());
      box = await element.boundingBox();
      const now = JSON.stringify(box);
      const rests = box !== null && now === before;
      before = now;
      return rests;
    })
    .toBe(true);
  if (box === null) throw new Error("not on the page");
  return box;
}
