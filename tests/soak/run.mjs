// npm run soak -- [--kills 200] [--bulk-kills 25] [--logs 10000] [--visits 200] [--seed 1] [--only writes,bulk,page]
// Nothing lost under long use: a writer killed at random moments, a bulk run killed and taken up again, many small logs in bulk, and many
// visits opened and closed in one page. Prints figures; exit 1 where something was lost, came twice, or memory grew.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { soakPage } from "./page.mjs";

const top = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const { values } = parseArgs({
  options: {
    kills: { type: "string", default: "200" },
    "bulk-kills": { type: "string", default: "25" },
    logs: { type: "string", default: "10000" },
    visits: { type: "string", default: "200" },
    seed: { type: "string", default: "1" },
    only: { type: "string", default: "writes,bulk,page" },
  },
});
const wants = (part) => values.only.split(",").includes(part);
const home = mkdtempSync(join(tmpdir(), "evenhead-soak-"));
let lost = 0;
const say = (holds, sentence) => {
  if (!holds) lost++;
  console.log(`${holds ? "" : "LOST  "}${sentence}`);
};

/** mulberry32 */
let state = Number(values.seed) >>> 0;
function random() {
  state = (state + 0x6d2b79f5) >>> 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
}
const wait = (ms) => new Promise((done) => setTimeout(done, ms));

const vite = (...args) =>
  spawnSync(process.execPath, [join(top, "node_modules", "vite", "bin", "vite.js"), "build", "src", "--logLevel", "error", ...args], {
    cwd: top,
    stdio: ["ignore", 2, 2],
    env: { ...process.env, NODE_ENV: "production" },
  });

/** Kills a process at a random moment and waits until it is gone. @returns whether it was still alive */
async function killLater(child, within) {
  let gone = false;
  const ended = new Promise((done) => child.on("exit", done));
  child.on("exit", () => {
    gone = true;
  });
  await wait(random() * within);
  const alive = !gone && child.kill("SIGKILL");
  await ended;
  return alive;
}

async function killedWrites() {
  vite("--ssr", "../tests/soak/write-loop.ts", "--outDir", "../dist/soak", "--emptyOutDir", "false");
  const folder = join(home, "writes");
  mkdirSync(folder);
  const path = join(folder, "out.json");
  const size = 3_000_000;
  let [killed, torn, before, halves] = [0, 0, 0, 0];
  for (let i = 0; i < Number(values.kills); i++) {
    const child = spawn(process.execPath, [join(top, "dist", "soak", "write-loop.js"), path, String(size)], {
      stdio: ["ignore", "pipe", 2],
    });
    // Half of the kills come while it starts or writes for the first time, half once it is writing.
    if (i % 2 === 0) await Promise.race([new Promise((done) => child.stdout.once("data", done)), wait(5000)]);
    if (await killLater(child, 300)) killed++;
    if (!existsSync(path)) before++;
    else {
      const text = readFileSync(path, "latin1");
      if (text.length !== size || (text !== "A".repeat(size) && text !== "B".repeat(size))) torn++;
    }
    for (const name of readdirSync(folder)) {
      if (!name.endsWith(".part")) continue;
      halves++;
      rmSync(join(folder, name));
    }
  }
  say(
    torn === 0,
    `writes: killed ${killed} times; ${torn} torn files under the name; ${halves} died in the middle of a write, ${before} before the first`,
  );
}

/** A small log of an invented site; every one is different. */
function smallLog(i) {
  const rows = Array.from({ length: 60 }, (_, k) => {
    const on = k % (10 + (i % 7)) < 5;
    const time = new Date(Date.UTC(2024, 0, 1 + (i % 300)) + k * 10_000).toISOString().slice(0, 19).replace("T", " ");
    return `${time},${(on ? 3.2 + (k % 5) / 10 : 3.8 - (k % 5) / 20 + i / 1e6).toFixed(6)},${on ? 1 : 0}`;
  });
  return `Time,Pressure (bar),Pump running\n${rows.join("\n")}\n`;
}

const program = join(top, ".ci", "command-line.mjs");
const lines = (out) =>
  readFileSync(join(out, "findings.jsonl"), "utf8")
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));
const nameOf = (document) => document.record.files[0]?.name;

async function bulkRuns() {
  const folder = join(home, "logs");
  const count = Number(values.logs);
  for (let i = 0; i < count; i++) {
    const inner = join(folder, String(i % 100));
    if (i < 100) mkdirSync(inner, { recursive: true });
    writeFileSync(join(inner, `log-${i}.csv`), smallLog(i));
  }
  const began = Date.now();
  const out = join(home, "out");
  const start = () => spawn(process.execPath, [program, "analyse", "--each", folder, "--out", out], { stdio: "ignore" });
  let killed = 0;
  for (let i = 0; i < Number(values["bulk-kills"]); i++) if (await killLater(start(), 4000)) killed++;
  const code = await new Promise((done) => start().on("exit", done));
  const documents = lines(out);
  const names = new Set(documents.map(nameOf));
  const failed = documents.filter(({ error }) => error !== null).length;
  say(
    code === 0 && documents.length === count && names.size === count && failed === 0,
    `bulk: ${count} logs, killed ${killed} times and taken up again: ${documents.length} documents, ${names.size} different, ${failed} not read, ${((Date.now() - began) / 1000).toFixed(0)} s`,
  );
}

try {
  if (wants("writes")) await killedWrites();
  if (wants("bulk")) await bulkRuns();
  if (wants("page")) {
    vite();
    await soakPage(top, Number(values.visits), say);
  }
} finally {
  rmSync(home, { recursive: true, force: true });
}
process.exitCode = lost > 0 ? 1 : 0;
