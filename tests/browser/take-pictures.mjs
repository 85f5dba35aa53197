// npm run pictures: every view of the sample visit as a picture in tests/browser/views, for the README and for looking at. Needs a built page.
import { mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { findBrowser } from "../../.ci/find-browser.mjs";

const top = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const views = join(top, "tests", "browser", "views");
mkdirSync(views, { recursive: true });

const QUIET = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
const { main } = await import(pathToFileURL(join(top, "dist", "command-line", "main.js")).href);
const PORT = 4877;
void main(["serve", "--quiet", "--port", String(PORT)]);
const browser = await chromium.launch({ executablePath: findBrowser() ?? "", args: QUIET });

/** The sample visit in a window of its own, in one of the page's lights. */
async function open(width, height, options = {}) {
  const { light = null, ...others } = options;
  const context = await browser.newContext({
    viewport: { width, height },
    locale: "en-US",
    timezoneId: "UTC",
    reducedMotion: "reduce",
    ...others,
  });
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${PORT}/`);
  if (light !== null) {
    if (width < 641) await page.getByRole("button", { name: "All sheets" }).click();
    await page.getByRole("button", { name: "How it is shown" }).click();
    await page.getByRole("radio", { name: light, exact: true }).check();
    await page.getByRole("button", { name: "Close", exact: true }).click();
  }
  await page.getByRole("button", { name: "Open the sample visit" }).click();
  await page.getByRole("heading", { name: "Next visit" }).waitFor({ timeout: 60_000 });
  await page.waitForTimeout(800);
  await page.evaluate(() => {
    document.activeElement?.blur();
    scrollTo(0, 0);
  });
  return page;
}

async function take(page, name, options = {}) {
  await page.screenshot({ path: join(views, `${name}.png`), ...options });
  console.log(`tests/browser/views/${name}.png`);
}

/** What if beside the trace, with two things changed and the numbers worked out. */
async function whatIf(page) {
  await page.getByRole("button", { name: "What if", exact: true }).click();
  for (const [name, value] of [
    ["Precharge", "43 psi"],
    ["Sleep delay", "60 s"],
  ]) {
    const field = page.getByRole("textbox", { name: `${name}, as a value` });
    await field.fill(value);
    await field.press("Enter");
  }
  await page.locator('.answer[aria-busy="false"] .answer-changed', { hasText: /\d/ }).first().waitFor();
  await page.getByRole("heading", { name: "What if" }).scrollIntoViewIfNeeded();
  await page.evaluate(() => document.querySelector(".panel")?.scrollIntoView());
  await page.waitForTimeout(500);
}

const PHONE = { hasTouch: true, isMobile: true };
const SHEETS = ["How it was read", "Site facts", "Acceptance", "Before and after", "Report", "Round", "Visits", "How it is shown"];
const wide = await open(1440, 900);
await take(wide, "visit-wide");
for (const sheet of SHEETS) {
  await wide.getByRole("button", { name: sheet, exact: true }).click();
  await wide.getByRole("dialog").waitFor();
  await wide.waitForTimeout(300);
  await take(wide, sheet.toLowerCase().replaceAll(" ", "-"));
  await wide.keyboard.press("Escape");
}
await wide
  .getByRole("button", { name: /^Show on trace: Pressure oscillates/ })
  .first()
  .click();
await wide.waitForTimeout(600);
await take(wide, "finding-lit");
const lanes = await wide.locator(".band-lanes").boundingBox();
const lit = await wide.locator(".band-names li.lit").boundingBox();
await wide.mouse.move(lanes.x + lanes.width * 0.12, lit.y + lit.height / 2);
await take(wide, "band-explained");
await wide.mouse.move(lanes.x, 0);
const looks = wide.locator(".look-choices button");
for (let i = 0; i < (await looks.count()); i++) {
  const look = looks.nth(i);
  const name = (await look.textContent()).toLowerCase().replace(/[^a-z]+/g, "-");
  await look.click();
  await wide.locator('.look-place[aria-busy="false"] .chart').waitFor();
  await wide.waitForTimeout(200);
  await wide.locator(".look-place").screenshot({ path: join(views, `look-${name}.png`) });
  console.log(`tests/browser/views/look-${name}.png`);
}
await whatIf(wide);
await take(wide, "what-if");
await take(await open(1024, 768), "visit-tablet");
await take(await open(390, 844, PHONE), "visit-phone");
const small = await open(360, 740, PHONE);
await take(small, "visit-phone-360");
await whatIf(small);
await take(small, "what-if-phone-360");
await take(await open(1440, 900, { colorScheme: "dark" }), "visit-night");
await take(await open(1440, 900, { light: "Bright sunlight" }), "visit-sunlight");
await take(await open(1440, 900, { forcedColors: "active", colorScheme: "dark" }), "visit-system-colours");
await take(await open(390, 844, { ...PHONE, light: "Bright sunlight" }), "visit-phone-sunlight");
await take(await open(320, 256), "visit-magnified");

// As it is printed: the pictures keep the width of the screen and are made smaller together.
const printed = await open(1440, 900);
await printed.evaluate(() => dispatchEvent(new Event("beforeprint")));
await printed.emulateMedia({ media: "print" });
await printed.setViewportSize({ width: 720, height: 1020 });
await printed.waitForTimeout(300);
await take(printed, "visit-printed");

const empty = await browser.newContext({ viewport: { width: 1440, height: 900 }, locale: "en-US" });
const start = await empty.newPage();
await start.goto(`http://127.0.0.1:${PORT}/`);
await start.getByRole("heading", { name: /^Bring in the log/ }).waitFor();
await take(start, "start");
await browser.close();
process.exit(0);
