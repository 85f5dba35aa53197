// How the page feels with long records: from the dropped file to the trace and to the findings, and the time of a frame while the trace is
// dragged and zoomed, and from a press to the picture that answers it (Event Timing, W3C). Usage: npm run bench:page -- [--rows 600000,10000000] [--rounds 5] [--out FILE.json]
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeFileSync, writeSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { chromium } from "playwright-core";
import { preview } from "vite";
import { findBrowser } from "../../../.ci/find-browser.mjs";

const TOP = join(dirname(fileURLToPath(import.meta.url)), "..", "..", "..");
const { values } = parseArgs({
  options: {
    rows: { type: "string", default: "600000,10000000" },
    rounds: { type: "string", default: "5" },
    out: { type: "string", default: join(TOP, "dist", "bench-page.json") },
  },
});

/** An invented log: time, pressure, flow, speed, one row a second. */
function writeLog(path, rows) {
  const file = openSync(path, "w");
  writeSync(file, "Time,Pressure [psi],Flow [gpm],Speed [Hz]\n");
  let lines = [];
  for (let i = 0; i < rows; i++) {
    const on = i % 300 < 120;
    const stamp = new Date(Date.UTC(2024, 0, 1) + i * 1000).toISOString().slice(0, 19).replace("T", " ");
    const pressure = (on ? 46 + (i % 300) / 10 : 58 - ((i % 300) - 120) / 15) + Math.sin(i / 40) + ((i * 7919) % 100) / 200;
    lines.push(`${stamp},${pressure.toFixed(2)},${(3 + (i % 70) / 10).toFixed(1)},${on ? 48 : 0}`);
    if (lines.length === 20_000 || i === rows - 1) {
      writeSync(file, `${lines.join("\n")}\n`);
      lines = [];
    }
  }
  closeSync(file);
}

/** In the page: moves the trace by hand once a frame and notes how far apart the frames came. */
async function frames(kind) {
  const stage = document.querySelector(".stage");
  const plot = stage.querySelector(".u-over").getBoundingClientRect();
  const middle = { clientX: plot.left + plot.width / 2, clientY: plot.top + plot.height / 2 };
  const wheel = (dx, dy) =>
    stage.dispatchEvent(new WheelEvent("wheel", { ...middle, deltaX: dx, deltaY: dy, bubbles: true, cancelable: true }));
  const next = () => new Promise((done) => requestAnimationFrame(done));
  document.querySelector(".trace-tools button").click();
  for (let i = 0; i < 30; i++) await next();
  const zoomTo = (share) => {
    wheel(0, Math.log(share) / 0.0022);
  };
  if (kind === "pan 10 %") zoomTo(0.1);
  if (kind === "pan 90 %") zoomTo(0.9);
  for (let i = 0; i < 20; i++) await next();
  const gaps = [];
  const work = [];
  let last = await next();
  for (let i = 0; i < 90; i++) {
    const began = performance.now();
    if (kind === "zoom") wheel(0, (Math.log(0.001) / 0.0022 / 90) * 1);
    else wheel((i % 60 < 30 ? 1 : -1) * plot.width * 0.004, 0);
    work.push(performance.now() - began);
    const now = await next();
    gaps.push(now - last);
    last = now;
  }
  return { gaps, work };
}

/** What a person presses, by name. */
const PRESSED = {
  "a finding": (page) => page.getByRole("button", { name: /^Show on trace/ }).first(),
  "the whole record": (page) => page.getByRole("button", { name: "Whole record" }),
  "a step done": (page) => page.getByRole("checkbox").first(),
};
const PRESSES = 5;

/** From each press to the next picture, ms in steps of 8; the browser leaves out what takes under 16, which counts as 16. */
async function answers(page, press) {
  await page.evaluate(() => {
    globalThis.waits = new Map();
    const note = (list) => {
      for (const { interactionId, duration } of list.getEntries())
        if (interactionId > 0) globalThis.waits.set(interactionId, Math.max(duration, globalThis.waits.get(interactionId) ?? 0));
    };
    globalThis.watch = new PerformanceObserver(note);
    globalThis.watch.observe({ type: "event", durationThreshold: 16 });
  });
  for (let i = 0; i < PRESSES; i++) {
    await press.click();
    await page.waitForTimeout(400);
  }
  const noted = await page.evaluate(() => {
    globalThis.watch.disconnect();
    return [...globalThis.waits.values()];
  });
  return [...noted, ...new Array(Math.max(0, PRESSES - noted.length)).fill(16)];
}

const quantile = (list, q) => [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(q * list.length))];
const median = (list) => quantile(list, 0.5);

const folder = mkdtempSync(join(tmpdir(), "evenhead-bench-"));
const server = await preview({
  root: join(TOP, "src"),
  configFile: join(TOP, "src", "vite.config.ts"),
  preview: { port: 0, host: "127.0.0.1" },
  logLevel: "error",
});
const address = server.resolvedUrls.local[0];
const browser = await chromium.launch({
  executablePath: findBrowser(),
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
  ],
});
const results = [];
try {
  for (const rows of values.rows.split(",").map(Number)) {
    const path = join(folder, `${rows}.csv`);
    writeLog(path, rows);
    const opening = [];
    const pressed = Object.fromEntries(Object.keys(PRESSED).map((what) => [what, []]));
    const moving = { "pan 10 %": [], "pan 90 %": [], zoom: [] };
    const rounds = rows > 5e6 ? 1 : Number(values.rounds) + 1;
    for (let round = 0; round < rounds; round++) {
      const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
      await page.goto(address);
      // As a hand does it: the file is held over the page, and let go half a second later.
      await page.getByRole("button", { name: "Open the sample visit" }).waitFor();
      const hand = await page.context().newCDPSession(page);
      const held = { x: 600, y: 500, data: { items: [], files: [path], dragOperationsMask: 1 } };
      for (const type of ["dragEnter", "dragOver"]) await hand.send("Input.dispatchDragEvent", { type, ...held });
      await page.waitForTimeout(500);
      const began = Date.now();
      await hand.send("Input.dispatchDragEvent", { type: "drop", ...held });
      // the strips that grow while the file is read; a small file may be read before one is drawn
      const growing = page.locator(".growing-trace canvas, .stage .uplot").first();
      await growing.waitFor({ timeout: 300_000 });
      const sketch = Date.now() - began;
      await page.locator(".stage .uplot").first().waitFor({ timeout: 300_000 });
      const trace = Date.now() - began;
      await page.getByRole("heading", { name: "What this log shows" }).waitFor({ timeout: 600_000 });
      const findings = Date.now() - began;
      await page.waitForTimeout(500);
      const clock = await page.context().newCDPSession(page);
      await clock.send("Performance.enable", { timeDomain: "threadTicks" });
      const cpu = async () => (await clock.send("Performance.getMetrics")).metrics.find(({ name }) => name === "TaskDuration").value * 1000;
      for (const kind of Object.keys(moving)) {
        const before = await cpu();
        const measured = await page.evaluate(`(${frames})(${JSON.stringify(kind)})`);
        measured.cpu = ((await cpu()) - before) / (measured.gaps.length + 50);
        if (round > 0 || rounds === 1) moving[kind].push(measured);
      }
      for (const [what, find] of Object.entries(PRESSED)) pressed[what].push(...(await answers(page, find(page))));
      if (round > 0 || rounds === 1) opening.push({ sketch, trace, findings });
      await page.close();
    }
    const ways = Object.entries(moving).map(([kind, list]) => {
      const gaps = list.flatMap((m) => m.gaps);
      const work = list.flatMap((m) => m.work);
      return {
        kind,
        frameMedianMs: median(gaps),
        frameP95Ms: quantile(gaps, 0.95),
        workMedianMs: median(work),
        workP95Ms: quantile(work, 0.95),
        cpuMs: median(list.map((m) => m.cpu)),
      };
    });
    results.push({
      rows,
      points: 3 * rows,
      megabytes: statSync(path).size / 1e6,
      sketchMs: median(opening.map((o) => o.sketch)),
      traceMs: median(opening.map((o) => o.trace)),
      findingsMs: median(opening.map((o) => o.findings)),
      ways,
      presses: Object.entries(pressed).map(([what, list]) => ({ what, medianMs: median(list), mostMs: Math.max(...list) })),
    });
    rmSync(path);
  }
} finally {
  await browser.close();
  await server.close();
  rmSync(folder, { recursive: true, force: true });
}

console.log(`${cpus().length} cores, load ${loadavg()[0].toFixed(1)}; medians of the rounds after the first; software drawing, 1440 x 900`);
for (const r of results) {
  console.log(
    `${r.rows} rows, ${r.megabytes.toFixed(0)} MB: first strokes after ${r.sketchMs} ms, trace after ${r.traceMs} ms, findings after ${r.findingsMs} ms`,
  );
  for (const w of r.ways)
    console.log(
      `  ${w.kind}: frame ${w.frameMedianMs.toFixed(1)} ms, p95 ${w.frameP95Ms.toFixed(1)}; processor time of the page ${w.cpuMs.toFixed(1)} ms a frame; script ${w.workMedianMs.toFixed(1)} ms, p95 ${w.workP95Ms.toFixed(1)}`,
    );
  for (const { what, medianMs, mostMs } of r.presses) console.log(`  press ${what}: next picture after ${medianMs} ms, at most ${mostMs}`);
}
writeFileSync(values.out, JSON.stringify({ cores: cpus().length, load: loadavg(), results }, null, 2));
