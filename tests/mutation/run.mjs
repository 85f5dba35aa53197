// npm run mutate -- FOLDER ... [--sample N] [--seed S] [--left]: changes the code of analysis a place at a time and asks whether a test turns red.
// A change that no test notices is a survivor: it is read and either killed by a test or explained in README.md beside this file.
// What the changes are is a well-kept tool's business (installed beside the build, never as a dependency); they are tried in one warm process.
// In an order of chance: --sample N stops after N and gives the interval of the share; --left tries only what the last run did not kill. Without a folder: hydraulics, diagnosis
// and detectors. --quick MS asks only tests that take no longer, for a lower bound of the share in less time.
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { bundleTest } from "./bundle.mjs";
import { changesOf } from "./changes.mjs";
import { shuffled } from "./draw.mjs";
import { sayFigures } from "./figures.mjs";
import { installed } from "./installed.mjs";
import { surveyed, tried } from "./watch.mjs";

const top = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const work = join(top, "dist", "mutation");
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    sample: { type: "string" },
    seed: { type: "string", default: "20261130" },
    left: { type: "boolean", default: false },
    quick: { type: "string" },
  },
});
const asked = positionals.map((path) => path.replace(/\/$/, ""));
const folders = asked.length > 0 ? asked : ["analysis/hydraulics", "analysis/diagnosis", "analysis/detectors"];
const missing = folders.filter((path) => !existsSync(join(top, path)));
if (missing.length > 0) {
  console.error(`No such folder or file: ${missing.join(", ")}. Name one from the top of the project, for example analysis/detectors.`);
  process.exit(2);
}

/** Files below a path, from the top. */
function filesIn(path) {
  if (!existsSync(join(top, path))) return [];
  if (!statSync(join(top, path)).isDirectory()) return [path];
  return readdirSync(join(top, path), { recursive: true }).map((name) => join(path, String(name)));
}
/** A folder's own tests answer, or those of the nearest folder around it. MUTATE_TESTS=tests/analysis,tests/shared asks those too that come by on the way to something else. */
function testsOf(path) {
  const mirror = `tests/${path.replace(/\.ts$/, "")}`;
  if (existsSync(join(top, mirror))) return mirror;
  return testsOf(dirname(path));
}
const tests = [...new Set((process.env.MUTATE_TESTS?.split(",") ?? folders.map(testsOf)).flatMap(filesIn))].filter((path) =>
  path.endsWith(".test.ts"),
);

const name = folders
  .map((path) => path.replace(/^analysis\//, "").replace(/[^a-z0-9]+/gi, "-"))
  .join("+")
  .slice(0, 60);
mkdirSync(join(work, name), { recursive: true });
await installed(work);
const { texts, changes } = await changesOf(
  top,
  work,
  folders.flatMap(filesIn).filter((path) => path.endsWith(".ts")),
);
const scripts = [];
for (const file of tests.sort()) {
  const path = join(work, name, `${file.replace(/[^a-z0-9]+/gi, "-")}.cjs`);
  const code = await bundleTest(join(top, file), texts);
  if (!code.includes("stryCov_")) continue;
  writeFileSync(path, code);
  scripts.push({ file, path });
}
console.error(`${changes.length} changes, ${scripts.length} test files come by`);

const kept = join(work, `${name}.json`);
const before = existsSync(kept) ? JSON.parse(readFileSync(kept, "utf8")) : [];
const killedBefore = new Map(values.left ? before.filter(({ outcome }) => outcome === "killed").map((one) => [one.key, one]) : []);
const outcomes = changes.flatMap((one) =>
  killedBefore.has(one.key) ? [{ ...one, outcome: "killed", by: killedBefore.get(one.key).by }] : [],
);
const open = changes.filter((one) => !killedBefore.has(one.key));
const chosen = shuffled(open, Number(values.seed)).slice(0, Number(values.sample ?? open.length));
const save = () => writeFileSync(kept, JSON.stringify(outcomes));
const survey = await surveyed(work, name, scripts);
for await (const one of tried(work, name, scripts, survey, chosen, Number(values.quick ?? Number.POSITIVE_INFINITY))) {
  outcomes.push(one);
  if (outcomes.length % 20 !== 0) continue;
  save();
  const killed = outcomes.filter(({ outcome }) => outcome === "killed").length;
  console.error(`${outcomes.length} of ${killedBefore.size + chosen.length}, ${killed} killed, ${new Date().toTimeString().slice(0, 8)}`);
}
save();
sayFigures(outcomes, changes.length);
