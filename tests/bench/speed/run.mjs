// npm run bench: everything that has to be fast, beside others that do the same, in one run. Peers are installed beside the build, never as
// dependencies; one that cannot be had is left out and said. Usage: npm run bench -- [--rounds 5] [--only reading,station,...] [--year]

import { spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { cpus, loadavg, totalmem } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { compareReaders, differingSums } from "./compare-readers.mjs";
import { median } from "./figures.mjs";
import { awkwardLog, bulkFolder, modelLog, plainLog, stationLog, YEAR } from "./make-logs.mjs";
import { compareProcesses, runOnce } from "./whole-process.mjs";
import { writeTable } from "./write-table.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const top = join(here, "..", "..", "..");
const work = join(top, "dist", "bench");
const { values } = parseArgs({
  options: { rounds: { type: "string", default: "5" }, only: { type: "string" }, year: { type: "boolean", default: false } },
});
const rounds = Number(values.rounds);
const wanted = (part) => values.only === undefined || values.only.split(",").includes(part);

const run = (command, args) => spawnSync(command, args, { cwd: top, stdio: ["ignore", 2, 2] });

function build(entry, folder) {
  const vite = join(top, "node_modules", "vite", "bin", "vite.js");
  run(process.execPath, [vite, "build", "src", "--ssr", entry, "--outDir", folder, "--logLevel", "error", "--emptyOutDir", "false"]);
}

function prepare() {
  mkdirSync(work, { recursive: true });
  build("../tests/bench/speed/read-with-evenhead.ts", "../dist/bench");
  build("../tests/bench/speed/what-if-with-evenhead.ts", "../dist/bench");
  build("command-line/main.ts", "../dist/command-line");
  const polars = `nodejs-polars-${process.platform}-${process.arch}-gnu@0.25.2`;
  const packages = ["@duckdb/node-api@1.5.6-r.1", "nodejs-polars@0.25.2", polars, "d3-dsv@3"];
  run("npm", ["install", "--no-save", "--no-audit", "--no-fund", "--loglevel=error", "--prefix", work, ...packages]);
  // beside the peers' packages
  for (const peer of ["d3-dsv", "duckdb", "polars", "live"]) copyFileSync(join(here, "peers", `${peer}.mjs`), join(work, `${peer}.mjs`));
}

const commandLine = join(top, ".ci", "command-line.mjs");
const peer = (name) => [process.execPath, join(here, "peers", `${name}.mjs`)];
const OURS = { name: "evenhead", command: peer("evenhead"), cores: 1 };
const READERS = [
  OURS,
  { name: "polars", command: [process.execPath, join(work, "polars.mjs")], cores: 2 },
  { name: "DuckDB", command: [process.execPath, join(work, "duckdb.mjs")], cores: 2 },
  { name: "pandas", command: ["python3", join(here, "peers", "pandas_reader.py")], cores: 1 },
  { name: "d3-dsv", command: [process.execPath, join(work, "d3-dsv.mjs")], cores: 1 },
  { name: "papaparse, streamed", command: peer("papaparse"), cores: 1 },
];

async function reading() {
  const read = async (path, awkward, contenders) => {
    const readers = await compareReaders(contenders, { path, awkward, rounds, folder: work });
    return { bytes: statSync(path).size, readers, differing: differingSums(readers) };
  };
  return {
    plain: await read(plainLog(work), false, READERS),
    awkward: await read(awkwardLog(work), true, READERS),
    station: await read(stationLog(work), true, [OURS, { name: "papaparse, streamed", command: peer("papaparse-station"), cores: 1 }]),
  };
}

/** Time per row of our own reader from ten thousand rows on; from 100 MB on it is two threads. Processor time, which other work disturbs least. */
async function growth() {
  const sizes = [10_000, 100_000, 1_000_000, 10_000_000, ...(values.year ? [YEAR] : [])];
  const rows = [];
  for (const size of sizes) {
    const path = plainLog(work, size);
    const [own] = await compareReaders([OURS], { path, awkward: false, rounds: size > 2e6 ? 2 : rounds, folder: work });
    rows.push({ rows: size, ms: own.ms, cpuMs: own.cpuMs, nsPerRow: (own.cpuMs * 1e6) / size, peakMiB: own.peakMiB });
    if (size > 2e6 && size < YEAR) rmSync(path);
  }
  return rows;
}

/** The same large file read on one core and on all, in turn. */
async function inTwo() {
  const path = plainLog(work, YEAR);
  const oneCore = { name: "one core", command: ["taskset", "-c", "0", ...peer("evenhead")], cores: 1 };
  const [all, one] = await compareReaders([{ ...OURS, cores: cpus().length }, oneCore], { path, awkward: false, rounds: 3, folder: work });
  return { oneCoreMs: one.ms, allCoresMs: all.ms, ratio: one.timesOurs, cores: cpus().length };
}

const analysing = (path) => [commandLine, "analyse", path, "--json"];

/** A plain week, and a week of a site whose pump starts and stops, whose loop hunts and whose tank works. The script is the same questions in pandas and SciPy. */
function wholeCommand() {
  const visit = join(top, "sample-data", "visits", "hillside-before");
  const site = modelLog(work, `${visit}.csv`);
  const script = (path) => ["-W", "ignore", join(here, "peers", "whole_path.py"), path];
  return compareProcesses(
    [
      ["evenhead, analyse: plain week", process.execPath, analysing(plainLog(work))],
      ["pandas + SciPy script: plain week", "python3", script(plainLog(work))],
      ["evenhead, analyse: week of a site", process.execPath, [...analysing(site), "--site", `${visit}.site.json`]],
      ["pandas + SciPy script: week of a site", "python3", script(site)],
      ["evenhead, --help", process.execPath, [commandLine, "--help"]],
    ],
    rounds,
    { cwd: top },
  );
}

/** Growth of the whole command: a day, a week, ten weeks. */
function wholeGrowth() {
  return [86_400, 604_800, 6_048_000, ...(values.year ? [YEAR] : [])].map((size) => {
    const path = plainLog(work, size);
    const once = runOnce(process.execPath, analysing(path), { cwd: top });
    if (size > 2e6) rmSync(path);
    return once === null ? { rows: size, refused: "did not run" } : { rows: size, ...once };
  });
}

function predicting() {
  const visit = join(top, "sample-data", "visits", "hillside-before");
  const log = modelLog(work, `${visit}.csv`);
  const child = spawnSync(process.execPath, [join(here, "what-if-child.mjs"), log, `${visit}.site.json`, String(rounds)], {
    encoding: "utf8",
  });
  if (child.status !== 0) return null;
  const { fitMs, predictions } = JSON.parse(child.stdout);
  return {
    fitMs,
    predictions: predictions.map(({ seconds, first, further }) => ({ seconds, firstMs: median(first), furtherMs: median(further) })),
  };
}

/** The same folder on one core and on all, in turn. */
function bulk() {
  const folder = bulkFolder(work);
  const out = join(work, "bulk-out");
  const all = { one: [], every: [] };
  for (let k = 0; k <= Math.min(3, rounds); k++)
    for (const [key, command, args] of [
      ["one", "taskset", ["-c", "0", process.execPath]],
      ["every", process.execPath, []],
    ]) {
      rmSync(out, { recursive: true, force: true });
      const once = runOnce(command, [...args, commandLine, "analyse", "--each", folder, "--out", out], { cwd: top });
      if (k > 0) all[key].push(once);
    }
  if ([...all.one, ...all.every].includes(null)) return null;
  const of = (key) => median(all[key].map(({ ms }) => ms));
  return { logs: 16, oneCoreMs: of("one"), allCoresMs: of("every"), cores: cpus().length, ratio: of("one") / of("every") };
}

prepare();
runOnce(process.execPath, [commandLine, "--help"], { cwd: top }); // built before anything is timed
/** What an earlier run found of the parts that this one leaves out. */
const earlier = existsSync(join(work, "speed.json")) ? JSON.parse(readFileSync(join(work, "speed.json"), "utf8")) : {};
const loads = { ...earlier.loads };
async function part(name, of, key = name) {
  if (!wanted(name)) return earlier[key] ?? null;
  const found = await of();
  loads[key] = loadavg()[0];
  return found;
}
const result = {
  machine: { cores: cpus().length, model: cpus()[0]?.model, memoryGiB: Math.round(totalmem() / 2 ** 30), node: process.version },
  rounds,
  loads,
  reading: await part("reading", reading),
  whole: await part("whole", wholeCommand),
  growth: await part("growth", growth),
  inTwo: values.year ? await part("growth", inTwo, "inTwo") : (earlier.inTwo ?? null),
  wholeGrowth: await part("growth", wholeGrowth, "wholeGrowth"),
  whatIf: await part("what-if", predicting, "whatIf"),
  bulk: await part("bulk", bulk),
};
writeFileSync(join(work, "speed.json"), `${JSON.stringify(result, null, 2)}\n`);
const table = writeTable(result);
console.log(table);
putInto(join(here, "..", "SPEED.md"), table);
console.log(`\nWritten: ${join("dist", "bench", "speed.json")}`);

/** The table between its two marks; what people wrote around it stays. */
function putInto(path, text) {
  const [begin, end] = ["<!-- table begins -->", "<!-- table ends -->"];
  const page = readFileSync(path, "utf8");
  writeFileSync(path, `${page.slice(0, page.indexOf(begin) + begin.length)}\n\n${text}\n\n${page.slice(page.indexOf(end))}`);
}
