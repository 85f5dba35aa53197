import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { onTestFinished, TestRunner } from "vitest";
import { findBrowser } from "../../.ci/find-browser.mjs";
import { servePage } from "../../src/command-line/serve";
import { TOP } from "../house/source-files";
import { slowDown } from "./slowed";

const BUILT = join(TOP, "dist", "page");
/** A browser under test talks to nobody but the page's own server. */
const QUIET = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** What a browser test works with; `close` ends both server and browser. */
export type OpenedPage = {
  readonly address: string;
  /** A fresh page in a fresh profile, gone at the end of the test; what it logs as an error is collected in `errors`. */
  fresh(options?: BrowserContextOptions): Promise<{ readonly page: Page; readonly errors: readonly string[] }>;
  /** A page in an ordinary profile of its own, where the browser keeps to a quota; gone at the end of the test. */
  ordinary(): Promise<Page>;
  close(): Promise<void>;
};

/** Builds the page where its sources are newer than the last build, serves it as the start command does and starts a browser. */
export async function openPage(): Promise<OpenedPage> {
  buildWhereStale();
  const { server, address } = await servePage(BUILT, 0);
  const path = findBrowser();
  if (path === null) throw new Error("No Chromium-family browser found; name one in EVENHEAD_BROWSER.");
  const browser: Browser = await chromium.launch({ executablePath: path, args: QUIET });
  const profiles: string[] = [];
  return {
    address,
    async fresh(options = {}) {
      const context = await browser.newContext({ locale: "en-US", timezoneId: "UTC", reducedMotion: "reduce", ...options });
      await prepare(context);
      const page = await context.newPage();
      const errors: string[] = [];
      page.on("pageerror", (error) => errors.push(String(error)));
      page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
      await page.goto(address);
      return { page, errors };
    },
    async ordinary() {
      const profile = mkdtempSync(join(tmpdir(), "evenhead-profile-"));
      const context = await chromium.launchPersistentContext(profile, {
        executablePath: path,
        args: QUIET,
        locale: "en-US",
        timezoneId: "UTC",
      });
      profiles.push(profile);
      await prepare(context);
      const page = context.pages()[0] ?? (await context.newPage());
      await page.goto(address);
      return page;
    },
    async close() {
      await browser.close();
      // An ended browser may still be writing for a moment.
      for (const profile of profiles) rmSync(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
    },
  };
}

/** As long as a poll may take (tests/vitest.config.ts). */
const LONGEST_WAIT = 60_000;

/** A page that is done with would take time and memory from the tests after it. One opened for all tests of a file lasts as long as they. */
async function prepare(context: BrowserContext): Promise<void> {
  context.setDefaultTimeout(LONGEST_WAIT);
  if (TestRunner.getCurrentTest() !== undefined) onTestFinished(() => context.close());
  await slowDown(context);
}

function newest(folder: string): number {
  const files = readdirSync(join(TOP, folder), { withFileTypes: true, recursive: true }).filter((entry) => entry.isFile());
  return files.reduce((latest, entry) => Math.max(latest, statSync(join(entry.parentPath, entry.name)).mtimeMs), 0);
}

function buildWhereStale(): void {
  const index = join(BUILT, "index.html");
  if (existsSync(index) && statSync(index).mtimeMs > Math.max(newest("shared"), newest("analysis"), newest("src"))) return;
  const vite = join(TOP, "node_modules", "vite", "bin", "vite.js");
  const build = spawnSync(process.execPath, [vite, "build", "src", "--logLevel", "error"], {
    cwd: TOP,
    encoding: "utf8",
    // The test runner sets "test", which would build the development form of React: twice the size and slower.
    env: { ...process.env, NODE_ENV: "production" },
  });
  if (build.status !== 0) throw new Error(`vite build failed: ${build.stderr}`);
}
