import type { Locator, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page";
import { openSheet } from "./sheets";
import { drawn, resting, story } from "./waits";

type Options = Parameters<OpenedPage["fresh"]>[0];

/** The sample visit with its findings. */
async function sampleVisit(options: Options = {}) {
  const { page, errors } = await opened.fresh(options);
  const asked: string[] = [];
  page.on("request", (request) => asked.push(request.url()));
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await story(page).waitFor();
  return { page, errors, asked, stage: page.getByRole("application") };
}

let opened: OpenedPage;
/** One visit on a desk for all tests that leave it as they found it. */
let desk: Awaited<ReturnType<typeof sampleVisit>>;
/** Its time axis while the whole record is shown. */
let whole: readonly string[] | null = null;
beforeAll(async () => {
  opened = await openPage();
  desk = await sampleVisit();
});
afterAll(() => opened.close());
beforeEach(async () => {
  await desk.stage.focus();
  await desk.page.keyboard.press("Escape");
  await desk.page.keyboard.press("0");
  if (whole === null) {
    await resting(desk.stage.locator(".u-over").first());
    await expect.poll(() => ruler(desk.page)).toHaveLength(7);
    whole = await ruler(desk.page);
  }
  await expect.poll(() => ruler(desk.page)).toEqual(whole);
});

/** Labels of the time axis: what they span says how far the trace is zoomed. */
const ruler = (page: Page) => page.locator(".time-tick > span:first-child").allTextContents();

/** Where a share of the plot's width lies on the screen, level with the middle of the pressure strip. */
async function onPlot(stage: Locator, share: number): Promise<{ readonly x: number; readonly y: number }> {
  const plot = await resting(stage.locator(".u-over").first());
  return { x: plot.x + plot.width * share, y: plot.y + plot.height / 2 };
}

describe("the trace by mouse", () => {
  test("zooms by wheel, moves by dragging, and goes back to the whole record", async () => {
    const { page, stage, errors } = desk;
    const middle = await onPlot(stage, 0.5);
    await page.mouse.move(middle.x, middle.y);
    for (let i = 0; i < 12; i++) await page.mouse.wheel(0, -240);
    await expect.poll(() => ruler(page)).not.toEqual(whole);
    const closer = await ruler(page);
    await page.mouse.down();
    await page.mouse.move(middle.x - 200, middle.y, { steps: 5 });
    await page.mouse.up();
    await expect.poll(() => ruler(page)).not.toEqual(closer);
    await page.getByRole("button", { name: "Whole record" }).click();
    await expect.poll(() => ruler(page)).toEqual(whole);
    expect(errors).toEqual([]);
  });

  test("reads every channel at the cursor, with unit and time", async () => {
    const { page, stage } = desk;
    const place = await onPlot(stage, 0.3);
    await page.mouse.move(place.x, place.y);
    await expect.poll(() => page.locator(".strip-reading").allTextContents()).toHaveLength(3);
    const [pressure, flow, speed] = await page.locator(".strip-reading").allTextContents();
    expect(pressure).toMatch(/^[\d.]+(?: to [\d.]+)?\u202fpsi$/);
    expect(flow).toMatch(/gpm$/);
    expect(speed).toMatch(/%$/);
    expect(await page.locator(".time-cursor").textContent()).toMatch(/Mar [1-9] \d\d:\d\d:\d\d|Mar [1-9], \d\d:\d\d:\d\d/);
  });

  test("a finding moves the trace, and a band lights its finding", async () => {
    const { page } = desk;
    await page
      .getByRole("button", { name: /^Show on trace/ })
      .first()
      .click();
    await expect.poll(() => ruler(page)).not.toEqual(whole);
    await expect.poll(() => page.locator(".band-names .lit").count()).toBe(1);
    await page.getByRole("button", { name: "Whole record" }).click();
    await expect.poll(() => ruler(page)).toEqual(whole);

    await page.locator(".band-lanes").scrollIntoViewIfNeeded();
    const lane = await resting(page.locator(".band-names li", { hasText: "Oscillation" }));
    const lanes = await resting(page.locator(".band-lanes"));
    for (let share = 0.2; share < 1; share += 0.004) {
      await page.mouse.click(lanes.x + lanes.width * share, lane.y + lane.height / 2);
      await drawn(page);
      if (/oscillat/i.test((await page.locator('.finding[data-lit="true"] h3').allTextContents()).join())) break;
    }
    expect(await page.locator('.finding[data-lit="true"] h3').textContent()).toMatch(/oscillat/i);
    expect(await page.locator(".trace-said").textContent()).toMatch(/^Pressure swung regularly: /);
  });

  test("the window on the overview is dragged", async () => {
    const { page } = desk;
    const small = await resting(page.locator(".overview"));
    await page.mouse.move(small.x + small.width * 0.4, small.y + 15);
    await page.mouse.down();
    await page.mouse.move(small.x + small.width * 0.5, small.y + 15, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => ruler(page)).not.toEqual(whole);
  });

  test("measures time, change, slope and starts between two points", async () => {
    const { page, stage } = desk;
    await page.getByRole("button", { name: "Measure" }).click();
    const [from, to] = [await onPlot(stage, 0.2), await onPlot(stage, 0.4)];
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 3 });
    await page.mouse.up();
    // A fifth of three days.
    const said = () => page.locator(".measured").textContent();
    await expect.poll(said).toMatch(/^14\.\d+\u202fh; Pressure .*psi a minute.*\d+ cycles of the pump, counted by its starts$/);
  });
});

describe("the trace by keyboard alone", () => {
  test("moves, zooms, reads and measures", async () => {
    const { page, stage, errors } = desk;
    await stage.focus();
    await page.keyboard.press("+");
    await expect.poll(() => ruler(page)).not.toEqual(whole);
    await page.keyboard.press("Shift+ArrowRight");
    await expect.poll(() => page.locator(".strip-reading").count()).toBe(3);
    await page.keyboard.press("m");
    await page.keyboard.press("Shift+ArrowRight");
    await page.keyboard.press("m");
    await expect.poll(() => page.locator(".measured").textContent()).toMatch(/psi a minute/);
    const measured = await ruler(page);
    await page.keyboard.press("End");
    await expect.poll(() => ruler(page)).not.toEqual(measured);
    const atEnd = await ruler(page);
    await page.keyboard.press("Home");
    await expect.poll(() => ruler(page)).not.toEqual(atEnd);
    await page.keyboard.press("0");
    await expect.poll(() => ruler(page)).toEqual(whole);
    expect(errors).toEqual([]);
  });

  test("asks for the list of keys", async () => {
    const { page, stage } = desk;
    await stage.focus();
    await page.keyboard.press("?");
    await page.getByRole("dialog").getByRole("row", { name: "0 the whole record" }).waitFor();
    await page.keyboard.press("Escape");
    await expect.poll(() => page.getByRole("dialog").count()).toBe(0);
  });

  test("steps from place to place, and says each", async () => {
    const { page, stage } = desk;
    await page.getByRole("combobox", { name: "Which places to step through" }).selectOption({ label: "oscillation" });
    await page.getByRole("button", { name: "Place after", exact: true }).press("Enter");
    await expect.poll(() => page.locator(".trace-said").textContent()).toMatch(/^Pressure swung regularly: .*, for /);
    const first = await page.locator(".trace-said").textContent();
    await page.getByRole("button", { name: "Place after", exact: true }).press("Enter");
    await expect.poll(() => page.locator(".trace-said").textContent()).not.toBe(first);
    // The keys of the trace step over the same band.
    await stage.focus();
    await page.keyboard.press("p");
    await expect.poll(() => page.locator(".trace-said").textContent()).toBe(first);
  });

  test("goes to a time of the site's clock", async () => {
    const { page, stage } = desk;
    await page.getByRole("button", { name: "Closer", exact: true }).click();
    await page.getByRole("combobox", { name: "Day to go to" }).selectOption({ label: "Wed, Mar 4" });
    await expect.poll(() => page.locator(".time-cursor").textContent()).toMatch(/Mar 4.*00:00:00/);
    await stage.focus();
    await page.keyboard.press("g");
    await page.keyboard.type("noon");
    await page.getByText("Write a time as 15:30.").waitFor();
    await page.keyboard.press("Control+a");
    await page.keyboard.type("3:30 pm");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.locator(".time-cursor").textContent()).toMatch(/Mar 4.*15:30:00/);
  });
});

test("on a phone the trace keeps to the top and a finger moves it", async () => {
  const { page, stage, errors } = await sampleVisit({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
  expect((await resting(page.getByRole("region", { name: "Trace" }))).height).toBeLessThan(740 * 0.42);
  await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  await page.getByRole("button", { name: "Larger" }).tap();
  await expect.poll(() => page.locator(".strip").count()).toBe(3);
  await page.getByRole("button", { name: "Smaller" }).tap();
  const shown = await ruler(page);
  await page.getByRole("button", { name: "Closer", exact: true }).tap();
  await expect.poll(() => ruler(page)).not.toEqual(shown);
  const closer = await ruler(page);
  const middle = await onPlot(stage, 0.5);
  const touch = await page.context().newCDPSession(page);
  const at = (x: number) => ({ touchPoints: [{ x, y: middle.y }] });
  await touch.send("Input.dispatchTouchEvent", { type: "touchStart", ...at(middle.x) });
  for (let i = 1; i <= 5; i++) await touch.send("Input.dispatchTouchEvent", { type: "touchMove", ...at(middle.x - 25 * i) });
  await touch.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  await expect.poll(() => ruler(page)).not.toEqual(closer);
  expect(errors).toEqual([]);
});

test("a closer look shows its picture and sentence, and is saved as numbers", async () => {
  const { page } = desk;
  await page
    .getByRole("button", { name: /^Show on trace/ })
    .first()
    .click();
  await page.getByRole("button", { name: "Starts in each hour" }).click();
  await page.getByText(/the busiest hour by the clock had/).waitFor();
  const rows = page.getByRole("table", { name: /Starts by day and hour/ }).getByRole("row");
  await expect.poll(() => rows.count()).toBeGreaterThanOrEqual(4);
  const [saved] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the numbers" }).click()]);
  expect(saved.suggestedFilename()).toBe("Starts in each hour.csv");
});

test("the sample visit teaches: each thing to try does what it says", async () => {
  const { page, errors } = await sampleVisit();
  await expect.poll(() => ruler(page)).toEqual(whole);
  await page.getByText("Learn on this visit").click();
  await page.getByRole("button", { name: "Show where it starts most" }).click();
  await expect.poll(() => ruler(page)).not.toEqual(whole);
  expect(await page.locator('.finding[data-lit="true"] h3').textContent()).toMatch(/runs shorter than/);
  await page.getByRole("button", { name: "See what the tank gives" }).click();
  await page.getByText(/A straight line through/).waitFor();
  await page.getByRole("button", { name: "Enter another precharge" }).click();
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe("fact-precharge");
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Ask what would help" }).click();
  await page.getByRole("dialog", { name: "What if" }).waitFor();
  expect(errors).toEqual([]);
});

test("no request leaves the page's own server during a visit", async () => {
  const { page, asked } = await sampleVisit();
  await page
    .getByRole("button", { name: /^Show on trace/ })
    .first()
    .click();
  const sheet = await openSheet(page, "How it is shown");
  await sheet.getByRole("radio", { name: "Night" }).check();
  expect(asked.length).toBeGreaterThan(2);
  expect(asked.filter((address) => !address.startsWith(opened.address) && !address.startsWith("blob:"))).toEqual([]);
});
