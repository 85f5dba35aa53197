// npm run fuzz -- [--minutes N] [--seed S] [--target ID]: throws changed and made-up files at everything that reads a file.
// A watcher over one process that does the work: where that hangs, runs out of memory or dies, the input it was at is kept as a case.
// Usual: 5 minutes, a seed from the clock (printed). Found cases lie in tests/fuzz/corpus and are replayed by npm test.
import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";

const top = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const work = join(top, "dist", "fuzz");
const { values } = parseArgs({
  options: {
    minutes: { type: "string", default: "5" },
    seed: { type: "string" },
    target: { type: "string" },
    growth: { type: "boolean", default: false },
  },
});
const seconds = Number(values.minutes) * 60;
let seed = Number(values.seed ?? Date.now() % 2 ** 31);
if (!(seconds > 0) || !Number.isInteger(seed)) {
  console.error("Usage: npm run fuzz -- [--minutes N] [--seed S] [--target ID] [--growth]");
  process.exit(2);
}

const TARGETS = ["importer", "containers", "corrections", "site-file", "visit", "archive", "findings"];
for (const target of TARGETS) mkdirSync(join(top, "tests", "fuzz", "corpus", target), { recursive: true });

/** One try must be over after this, ms; the machine may be busy. */
const HANG = 120_000;
const MEMORY_MB = 1500;

function build(entry) {
  const vite = join(top, "node_modules", "vite", "bin", "vite.js");
  const built = spawnSync(
    process.execPath,
    [
      vite,
      "build",
      "src",
      "--ssr",
      `../tests/fuzz/${entry}.ts`,
      "--outDir",
      "../dist/fuzz",
      "--logLevel",
      "error",
      "--emptyOutDir",
      "false",
    ],
    { cwd: top, stdio: ["ignore", 2, 2] },
  );
  if (built.status !== 0) process.exit(built.status ?? 1);
}

const sum = new Map();
let [features, branches] = [0, 0];
const found = [];
function heard(line) {
  const told = JSON.parse(line);
  if (told.say === "found") {
    found.push(`${told.target}: ${told.what}  (${told.file})`);
    console.log(`FOUND ${found.at(-1)}`);
    return;
  }
  const of = sum.get(told.target) ?? { tried: 0, bytes: 0 };
  sum.set(told.target, { tried: of.tried + told.count, bytes: of.bytes + told.bytes });
  features = Math.max(features, told.features);
  branches = Math.max(branches, told.branches);
}

/** Keeps the input at which the process died. */
function keepNow(why) {
  const now = join(work, "now.bin");
  if (!existsSync(now)) return;
  const { target, family } = JSON.parse(readFileSync(join(work, "now.json"), "utf8"));
  const name = `${why}-${createHash("sha256").update(readFileSync(now)).digest("hex").slice(0, 8)}.bin`;
  const file = join(top, "tests", "fuzz", "corpus", target, name);
  copyFileSync(now, file);
  found.push(`${target} (${family}): ${why}, ${statSync(now).size} bytes  (${file})`);
  console.log(`FOUND ${found.at(-1)}`);
}

function worker(left) {
  return new Promise((resolve) => {
    const args = [
      `--max-old-space-size=${MEMORY_MB}`,
      join(work, "fuzz.js"),
      String(left),
      String(seed),
      ...(values.target ? [values.target] : []),
    ];
    const child = spawn(process.execPath, args, { cwd: top, stdio: ["ignore", "pipe", 2] });
    let hung = false;
    const now = join(work, "now.bin");
    rmSync(now, { force: true }); // an input of an earlier process is no sign of life, nor of a hang
    const watch = setInterval(() => {
      if (existsSync(now) && Date.now() - statSync(now).mtimeMs > HANG) {
        hung = true;
        child.kill("SIGKILL");
      }
    }, 5000);
    createInterface({ input: child.stdout }).on("line", heard);
    child.on("exit", (code, signal) => {
      clearInterval(watch);
      if (hung) keepNow("hangs");
      else if (code !== 0) keepNow(signal === "SIGABRT" || code === 134 ? "out-of-memory" : "dies");
      resolve();
    });
  });
}

const growth = () =>
  spawnSync(process.execPath, [`--max-old-space-size=${MEMORY_MB}`, join(work, "growth.js")], { cwd: top, stdio: ["ignore", 1, 2] })
    .status ?? 1;

build("fuzz");
build("growth");
const began = Date.now();
console.log(`Seed ${seed}, ${values.minutes} minutes`);
const grows = values.growth || values.target === undefined ? growth() : 0;
const end = Date.now() + seconds * 1000;
while (!values.growth && Date.now() < end) {
  await worker((end - Date.now()) / 1000);
  seed++;
}
for (const [target, { tried, bytes }] of sum)
  console.log(`${target}: ${tried.toLocaleString("en")} inputs, ${(bytes / 1e6).toFixed(1)} MB`);
console.log(
  `${features} kinds of outcome, ${branches} branches reached, ${((Date.now() - began) / 60_000).toFixed(1)} minutes; ${found.length} found`,
);
process.exitCode = found.length > 0 || grows !== 0 ? 1 : 0;
