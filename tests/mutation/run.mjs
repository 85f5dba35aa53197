// npm run mutate -- [FOLDER ...]: changes the code of analysis a line at a time and asks whether a test turns red.
// A change that no test notices is a survivor: it is read and either killed by a test or explained in README.md beside this file.
// The tool is installed beside the build, never as a dependency. Without a folder: hydraulics, diagnosis and detectors.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const top = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const work = join(top, "dist", "mutation");
const TOOL = ["@stryker-mutator/core@9.6.1", "@stryker-mutator/vitest-runner@9.6.1"];
const USUAL = ["analysis/hydraulics", "analysis/diagnosis", "analysis/detectors"];

const asked = process.argv.slice(2);
const folders = asked.length > 0 ? asked.map((path) => path.replace(/\/$/, "")) : USUAL;
const missing = folders.filter((path) => !existsSync(join(top, path)));
if (missing.length > 0) {
  console.error(`No such folder or file: ${missing.join(", ")}. Name one from the top of the project, for example analysis/detectors.`);
  process.exit(2);
}

mkdirSync(work, { recursive: true });
if (!existsSync(join(work, "node_modules", "@stryker-mutator", "core"))) {
  console.error("Installing the mutation tester beside the build ...");
  const npm = spawnSync("npm", ["install", "--no-save", "--no-audit", "--no-fund", "--loglevel=error", "--prefix", work, ...TOOL], {
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  });
  if (npm.status !== 0) {
    console.error("It could not be installed; npm's messages stand above.");
    process.exit(1);
  }
}

// A folder's own tests answer first: to ask every test of the suite takes a day. MUTATE_TESTS=tests/analysis asks them all.
const own = [...new Set(folders.map((path) => path.replace(/\/[^/]*\.ts$/, "")))].map((path) => `tests/${path}`);
process.env.MUTATE_TESTS ??= own.filter((path) => existsSync(join(top, path))).join(",");

const name = folders.map((path) => path.replace(/^analysis\//, "").replace(/[^a-z0-9]+/gi, "-")).join("+");
const report = join(work, `${name}.json`);
const settings = join(work, `${name}.settings.json`);
writeFileSync(
  settings,
  JSON.stringify({
    plugins: [join(work, "node_modules", "@stryker-mutator", "vitest-runner", "dist", "src", "index.js")],
    testRunner: "vitest",
    vitest: { configFile: "tests/mutation/vitest.config.ts", related: true },
    mutate: folders.map((path) => (path.endsWith(".ts") ? path : `${path}/**/*.ts`)),
    // The tool would ask the compiler as a library, which the present one is not.
    tsconfigFile: "none.json",
    ignorePatterns: ["dist", "sample-data/dialects/*.big", ".git"],
    coverageAnalysis: "perTest",
    // A constant of a table is checked by its source, not by nudging its text: sentences are left alone.
    mutator: { excludedMutations: ["StringLiteral"] },
    ignoreStatic: true,
    concurrency: Number(process.env.MUTATE_WORKERS ?? 2),
    timeoutMS: 10_000,
    tempDirName: "dist/mutation/tmp",
    reporters: ["json", "progress-append-only"],
    jsonReporter: { fileName: report },
    incremental: true,
    incrementalFile: join(work, `${name}.known.json`),
  }),
);

const tool = join(work, "node_modules", "@stryker-mutator", "core", "bin", "stryker.js");
const run = spawnSync(process.execPath, [tool, "run", settings], { cwd: top, stdio: ["ignore", 2, 2] });
if (!existsSync(report)) process.exit(run.status ?? 1);

const KILLED = new Set(["Killed", "Timeout"]);
const ALIVE = new Set(["Survived", "NoCoverage"]);
const files = Object.entries(JSON.parse(readFileSync(report, "utf8")).files).map(([path, { source, mutants }]) => ({
  path,
  source,
  mutants,
}));
let [killed, alive] = [0, 0];
for (const { path, source, mutants } of files) {
  const lines = source.split("\n");
  const dead = mutants.filter(({ status }) => KILLED.has(status)).length;
  const left = mutants.filter(({ status }) => ALIVE.has(status));
  killed += dead;
  alive += left.length;
  console.log(`${path}: ${dead} of ${dead + left.length} killed`);
  for (const { location, mutatorName, replacement, status } of left) {
    const { line, column } = location.start;
    const what = status === "NoCoverage" ? "no test comes here" : mutatorName;
    console.log(
      `  ${line}:${column} ${what}: ${lines[line - 1].trim().slice(0, 100)}  ->  ${(replacement ?? "").replace(/\s+/g, " ").slice(0, 80)}`,
    );
  }
}
console.log(`${killed} of ${killed + alive} killed (${((100 * killed) / Math.max(1, killed + alive)).toFixed(1)} %)`);
process.exitCode = run.status ?? 1;
