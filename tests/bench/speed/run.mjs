// npm run bench: every reader a live process, asked in turn, round after round; the first round warms up, the median of the rest counts.
// Peers are installed beside the build, never as dependencies; one that cannot be had is left out and said.
import { spawn, spawnSync } from "node:child_process";
import { mkdirSync, statSync, writeFileSync } from "node:fs";
import { cpus, totalmem } from "node:os";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { makeLogs } from "./make-logs.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const top = join(here, "..", "..", "..");
const work = join(top, "dist", "bench");
const ROUNDS = Number(process.env.BENCH_ROUNDS ?? 6);

const run = (command, args, options = {}) => spawnSync(command, args, { cwd: top, stdio: ["ignore", 2, 2], ...options });
const median = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];

function prepare() {
  mkdirSync(work, { recursive: true });
  run(process.execPath, [
    join(top, "node_modules", "vite", "bin", "vite.js"),
    "build",
    "src",
    "--ssr",
    "../tests/bench/speed/read-with-evenhead.ts",
    "--outDir",
    "../dist/bench",
    "--logLevel",
    "error",
    "--emptyOutDir",
    "false",
  ]);
  run("npm", [
    "install",
    "--no-save",
    "--no-audit",
    "--no-fund",
    "--loglevel=error",
    "--prefix",
    work,
    "@duckdb/node-api@1.5.6-r.1",
    "nodejs-polars@0.25.2",
    `nodejs-polars-${process.platform}-${process.arch}-gnu@0.25.2`,
    "d3-dsv@3",
  ]);
}

const contenders = [
  { name: "evenhead", command: [process.execPath, join(here, "peers", "evenhead.mjs")], cores: 1 },
  { name: "papaparse, streamed", command: [process.execPath, join(here, "peers", "papaparse.mjs")], cores: 1 },
  { name: "d3-dsv", command: [process.execPath, join(work, "d3-dsv.mjs")], cores: 1 },
  { name: "DuckDB", command: [process.execPath, join(work, "duckdb.mjs")], cores: 2 },
  { name: "polars", command: [process.execPath, join(work, "polars.mjs")], cores: 2 },
  { name: "pandas", command: ["python3", join(here, "peers", "pandas_reader.py")], cores: 1 },
];

/** A live contender: ask(order) resolves with its figures. */
function start({ name, command }) {
  const child = spawn(command[0], command.slice(1), {
    cwd: work,
    stdio: ["pipe", "pipe", "pipe"],
    env: { ...process.env, PATH: `/usr/bin:${process.env.PATH}` },
  });
  let complaint = "";
  child.stderr.on("data", (data) => {
    complaint += data;
  });
  const lines = createInterface({ input: child.stdout });
  const ask = (order) =>
    new Promise((resolve, reject) => {
      lines.once("line", (line) => resolve(JSON.parse(line)));
      child.once("exit", () => reject(new Error(complaint.split("\n").find((line) => line.includes("Error")) ?? "ended")));
      child.stdin.write(`${JSON.stringify(order)}\n`);
    });
  return { name, ask, stop: () => child.stdin.end() };
}

async function compare(path, awkward) {
  let live = contenders.map(start);
  const figures = new Map(live.map(({ name }) => [name, []]));
  const refused = new Map();
  for (let round = 0; round < ROUNDS; round++) {
    for (const contender of live) {
      try {
        const answer = await contender.ask({ path, awkward });
        if (round > 0) figures.get(contender.name).push(answer);
      } catch (error) {
        refused.set(contender.name, error.message);
      }
    }
    live = live.filter(({ name }) => !refused.has(name));
  }
  for (const { stop } of live) stop();
  const own = figures.get("evenhead").map(({ ms }) => ms);
  const bytes = statSync(path).size;
  return contenders.map(({ name, cores }) => {
    const all = figures.get(name);
    if (refused.has(name) || all.length === 0) return { name, refused: refused.get(name) ?? "no figures" };
    const ms = median(all.map((a) => a.ms));
    return {
      name,
      cores,
      rows: all[0].rows,
      sums: all[0].sums,
      ms,
      mbPerS: bytes / 1e3 / ms,
      cpuMs: median(all.map((a) => a.cpuMs)),
      peakMiB: Math.max(...all.map((a) => a.peakMiB)),
      timesOurs: median(all.map((a, i) => a.ms / own[i])),
    };
  });
}

/** Whole processes, from start to findings. */
function wholeProcess(path) {
  const time = (command, args) => {
    const runs = Array.from({ length: ROUNDS }, () => {
      const from = performance.now();
      const done = spawnSync("/usr/bin/time", ["-f", "%M", command, ...args], {
        cwd: top,
        encoding: "utf8",
        maxBuffer: 1 << 30,
        env: { ...process.env, PATH: `/usr/bin:${process.env.PATH}` },
      });
      const peak = Number(done.stderr?.trim().split("\n").at(-1));
      return { ms: performance.now() - from, ok: done.status === 0, peakMiB: peak / 1024 };
    }).slice(1);
    return runs.every(({ ok }) => ok)
      ? { ms: median(runs.map(({ ms }) => ms)), peakMiB: median(runs.map(({ peakMiB }) => peakMiB)) }
      : null;
  };
  return {
    evenhead: time(process.execPath, [join(top, ".ci", "command-line.mjs"), "analyse", path, "--json"]),
    "pandas + SciPy script": time("python3", [join(here, "peers", "whole_path.py"), path]),
  };
}

function print(title, rows) {
  console.log(`\n${title}`);
  for (const row of rows) {
    console.log(
      row.refused
        ? `  ${row.name.padEnd(22)} left out: ${row.refused}`
        : `  ${row.name.padEnd(22)} ${row.mbPerS.toFixed(0).padStart(5)} MB/s  ${row.ms.toFixed(0).padStart(6)} ms  cpu ${row.cpuMs.toFixed(0).padStart(6)} ms  peak ${row.peakMiB.toFixed(0).padStart(4)} MiB  ${row.timesOurs.toFixed(2)} x our time (${row.cores} core${row.cores > 1 ? "s" : ""})`,
    );
  }
}

prepare();
for (const peer of ["d3-dsv", "duckdb", "polars", "live"]) {
  const { copyFileSync } = await import("node:fs");
  copyFileSync(join(here, "peers", `${peer}.mjs`), join(work, `${peer}.mjs`)); // beside the peers' packages
}
const { plain, awkward } = makeLogs(work);
const result = {
  machine: { cores: cpus().length, model: cpus()[0]?.model, memoryGiB: Math.round(totalmem() / 2 ** 30), node: process.version },
  plain: await compare(plain, false),
  awkward: await compare(awkward, true),
  wholeProcess: wholeProcess(plain),
};
print("Reading 604 800 rows: ISO stamps, commas", result.plain);
print("Reading 604 800 rows: semicolons, decimal commas, dd/mm/yyyy", result.awkward);
console.log("\nWhole process, file to findings");
for (const [name, figures] of Object.entries(result.wholeProcess))
  console.log(
    `  ${name.padEnd(22)} ${figures === null ? "left out" : `${figures.ms.toFixed(0)} ms, peak ${figures.peakMiB.toFixed(0)} MiB`}`,
  );
writeFileSync(join(work, "speed.json"), `${JSON.stringify(result, null, 2)}\n`);
console.log(`\nWritten: ${join("dist", "bench", "speed.json")}`);
