import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";
import { chromium } from "playwright-core";
import { findBrowser } from "../../.ci/find-browser.mjs";

const TYPES = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml", ".csv": "text/csv" };
/** Growth of the page's heap from the first tenth of the visits to the last that is still called flat: noise of the engine, MB. */
const MOST_GROWTH = 8;
/** The same with the worker, whose arrays of one visit are some tens of MB and go when the engine finds time. */
const MOST_WHOLE_GROWTH = 40;

/** A log that has cycles, an oscillation and a flow; another period each time. */
function log(i) {
  const rows = ["Time,P1 [psi],Flow [gpm],Speed [Hz]"];
  for (let k = 0; k < 3600; k++) {
    const swinging = k < 1800;
    const on = swinging || k % (40 + (i % 20)) < 20;
    const pressure = swinging ? 52 + 2 * Math.sin((2 * Math.PI * k) / (15 + (i % 9))) : on ? 45 + (k % 20) * 0.5 : 55 - (k % 30) / 3;
    const time = new Date(Date.UTC(2024, 4, 1 + (i % 28), 8) + k * 1000).toISOString().slice(0, 19).replace("T", " ");
    rows.push(`${time},${pressure.toFixed(2)},${(swinging ? 12 : 3).toFixed(1)},${on ? 48 : 0}`);
  }
  return Buffer.from(`${rows.join("\n")}\n`);
}

const median = (list) => list.toSorted((a, b) => a - b)[list.length >> 1];

/** Opens, analyses and closes many visits in one page, and looks at what stays behind. */
export async function soakPage(top, visits, say) {
  const folder = join(top, "dist", "page");
  const server = createServer(async (request, response) => {
    const path = normalize(join(folder, new URL(request.url, "http://x").pathname));
    const bytes = await readFile(path.endsWith("/") ? join(path, "index.html") : path).catch(() => null);
    response.writeHead(bytes === null ? 404 : 200, {
      "Content-Type": TYPES[extname(path)] ?? "text/html",
      "Cross-Origin-Opener-Policy": "same-origin",
      "Cross-Origin-Embedder-Policy": "require-corp",
    });
    response.end(bytes);
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  const browser = await chromium.launch({
    executablePath: findBrowser(),
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--no-first-run",
      "--disable-background-networking",
      "--enable-blink-features=ForceEagerMeasureMemory",
    ],
  });
  const page = await browser.newPage();
  const errors = [];
  page.on("pageerror", (error) => errors.push(String(error)));
  await page.goto(`http://127.0.0.1:${server.address().port}/`);
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable");
  await session.send("HeapProfiler.enable");
  const measure = async () => {
    await session.send("HeapProfiler.collectGarbage");
    const { metrics } = await session.send("Performance.getMetrics");
    const of = (name) => metrics.find((metric) => metric.name === name).value;
    // The worker's memory too, where the browser tells it (an isolated page, W3C Measure Memory API); null where it does not.
    const whole = await page.evaluate(async () => {
      if (!("measureUserAgentSpecificMemory" in performance)) return null;
      return (await performance.measureUserAgentSpecificMemory()).bytes / 1e6;
    });
    return { heap: of("JSHeapUsedSize") / 1e6, whole, nodes: of("Nodes"), listeners: of("JSEventListeners") };
  };
  const began = Date.now();
  const seen = [];
  for (let i = 0; i < visits; i++) {
    const name = `visit-${i}.csv`;
    await page
      .locator('input[type="file"][multiple]')
      .first()
      .setInputFiles({ name, mimeType: "text/csv", buffer: log(i) });
    await page.locator(".masthead-what", { hasText: name }).waitFor({ timeout: 120_000 });
    await page.getByRole("heading", { name: "Next visit" }).waitFor({ timeout: 120_000 });
    if ((i + 1) % Math.max(1, Math.floor(visits / 20)) === 0) seen.push({ visit: i + 1, ...(await measure()) });
  }
  const minutes = (Date.now() - began) / 60_000;
  await browser.close();
  server.close();
  const early = seen.slice(1, 4);
  const late = seen.slice(-3);
  const grew = (key) => median(late.map((m) => m[key])) - median(early.map((m) => m[key]));
  for (const { visit, heap, whole, nodes, listeners } of seen)
    console.log(
      `  visit ${visit}: heap ${heap.toFixed(1)} MB, with the worker ${whole?.toFixed(1) ?? "not told"} MB, ${nodes} nodes, ${listeners} listeners`,
    );
  say(
    grew("heap") < MOST_GROWTH &&
      (late[0].whole === null || grew("whole") < MOST_WHOLE_GROWTH) &&
      grew("nodes") < 2000 &&
      errors.length === 0,
    `page: ${visits} visits in ${minutes.toFixed(1)} minutes; heap grew by ${grew("heap").toFixed(1)} MB, with the worker by ${grew("whole").toFixed(1)} MB, nodes by ${grew("nodes")}, listeners by ${grew("listeners")}; ${errors.length} errors ${errors.slice(0, 2).join(" ")}`,
  );
}
