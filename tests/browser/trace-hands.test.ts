import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { bringIn, textFile } from "./visits";
import { drawn, resting, story } from "./waits";

let opened: OpenedPage;
beforeAll(async () => {
  opened = await openPage();
});
afterAll(() => opened.close());

async function sampleVisit(options: Parameters<OpenedPage["fresh"]>[0]): Promise<{ page: Page; errors: readonly string[] }> {
  const { page, errors } = await opened.fresh(options);
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await page.getByRole("heading", { name: "Next visit" }).waitFor();
  return { page, errors };
}

const overlaps = (a: { y: number; height: number }, b: { y: number; height: number }) => a.y < b.y + b.height && b.y < a.y + a.height;

test("a band explains the place under the pointer beside the pointer, and leaves the place itself in sight", async () => {
  const { page, errors } = await sampleVisit({ viewport: { width: 1440, height: 900 } });
  const lanes = await resting(page.locator(".band-lanes"));
  const names = page.locator(".band-names li");
  expect(await names.first().textContent()).toBe("Running");
  const y = lanes.y + 9;
  const note = page.locator(".place-note");
  for (let x = lanes.x + 4; x < lanes.x + lanes.width && (await note.count()) === 0; x += 3) {
    await page.mouse.move(x, y);
    await drawn(page);
  }
  expect(await note.textContent()).toMatch(/^The pump ran: .*, for /);
  const box = await resting(note);
  expect(y - (box.y + box.height)).toBeLessThan(20);
  expect(overlaps(box, { y, height: 1 })).toBe(false);
  // At either end of the record it stays on the page.
  await page.mouse.move(lanes.x + lanes.width - 2, y);
  await drawn(page);
  if ((await note.count()) > 0) expect((await resting(note)).x + (await resting(note)).width).toBeLessThanOrEqual(1440);
  await page.mouse.move(lanes.x, lanes.y - 200);
  await note.waitFor({ state: "detached" });
  expect(errors).toEqual([]);
});

test("two fingers pinch the trace closer and wider, also while measuring", async () => {
  const { page, errors } = await sampleVisit({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  await page.getByRole("button", { name: "Larger" }).tap();
  await page.getByRole("button", { name: "Measure" }).tap();
  const { x, y, width, height } = await resting(page.locator(".u-over").first());
  const [middle, row] = [x + width / 2, y + height / 2];
  const windowOf = () => page.locator(".overview-window").evaluate((element) => element.getBoundingClientRect().width);
  const whole = await windowOf();
  const touch = await page.context().newCDPSession(page);
  const fingers = (apart: number) => ({
    touchPoints: [
      { x: middle - apart / 2, y: row, id: 0 },
      { x: middle + apart / 2, y: row, id: 1 },
    ],
  });
  const pinch = async (from: number, to: number) => {
    await touch.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: [fingers(from).touchPoints[0]] });
    await touch.send("Input.dispatchTouchEvent", { type: "touchStart", ...fingers(from) });
    for (let i = 1; i <= 8; i++)
      await touch.send("Input.dispatchTouchEvent", { type: "touchMove", ...fingers(from + ((to - from) * i) / 8) });
    await touch.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  };
  await pinch(40, 160);
  // Four times the distance shows a quarter of the time.
  await expect.poll(windowOf).toBeLessThan(whole * 0.4);
  await drawn(page);
  expect(await windowOf()).toBeGreaterThan(whole * 0.15);
  await pinch(160, 40);
  await expect.poll(windowOf).toBeGreaterThan(whole * 0.7);
  expect(errors).toEqual([]);
});

test("on a phone with the large trace a touched band keeps the trace under the finger, and a finding brings it back into sight", async () => {
  const { page } = await sampleVisit({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  await page.getByRole("button", { name: "Larger" }).tap();
  const lanes = await resting(page.locator(".band-lanes"));
  await page.touchscreen.tap(lanes.x + lanes.width * 0.3, lanes.y + 9);
  await page.locator(".trace-said", { hasText: /^The pump ran: / }).waitFor();
  expect((await resting(page.locator(".band-lanes"))).y).toBe(lanes.y);
  const show = page.getByRole("button", { name: /^Show on trace: Pressure oscillates/ });
  await show.scrollIntoViewIfNeeded();
  await show.tap();
  await expect.poll(async () => Math.abs((await page.locator(".trace").boundingBox())?.y ?? Number.NaN)).toBeLessThan(5);
});

test("as close as the readings go the trace says so; without a pump state a measurement says that cycles are not known", async () => {
  const { page, errors } = await opened.fresh();
  const rows = Array.from(
    { length: 1200 },
    (_, i) => `2024-05-03 08:${String(Math.floor(i / 60)).padStart(2, "0")}:${String(i % 60).padStart(2, "0")},52.0`,
  );
  await bringIn(page, textFile("flat.csv", ["Time,P1 [psi]", ...rows].join("\n")));
  await story(page).waitFor();
  const stage = page.locator(".stage");
  await stage.focus();
  for (let i = 0; i < 14; i++) await page.keyboard.press("+");
  await page.getByText("The log reads every 1.0\u202fs: closer than this there is nothing more to see.").waitFor();
  await page.keyboard.press("m");
  await page.keyboard.press("Shift+ArrowRight");
  await page.keyboard.press("m");
  await page.getByText("cycles not known: the log does not show when the pump ran").waitFor();
  expect(errors).toEqual([]);
});
