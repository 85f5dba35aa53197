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

/** The sample visit in a window of its own. */
async function open(width, height, options = {}) {
  const context = await browser.newContext({
    viewport: { width, height },
    locale: "en-US",
    timezoneId: "UTC",
    reducedMotion: "reduce",
    ...options,
  });
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${PORT}/#sample`);
  await page.getByRole("heading", { name: "Next visit" }).waitFor({ timeout: 60_000 });
  await page.waitForTimeout(600);
  return page;
}

async function take(page, name, options = {}) {
  await page.screenshot({ path: join(views, `${name}.png`), ...options });
  console.log(`tests/browser/views/${name}.png`);
}

const SHEETS = ["How it was read", "Site facts", "Acceptance", "Before and after", "Report", "Round", "How it is shown"];
const wide = await open(1440, 900);
await take(wide, "visit-wide");
for (const sheet of SHEETS) {
  await wide.getByRole("button", { name: sheet, exact: true }).click();
  await wide.getByRole("dialog").waitFor();
  await wide.waitForTimeout(300);
  await take(wide, sheet.toLowerCase().replaceAll(" ", "-"));
  await wide.keyboard.press("Escape");
}
await take(await open(390, 844, { hasTouch: true, isMobile: true }), "visit-phone");
await take(await open(1440, 900, { colorScheme: "dark" }), "visit-night");
await browser.close();
process.exit(0);
