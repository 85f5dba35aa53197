// Tries changes one after another in one warm process. Given a job file; tells what comes of each on standard output, a line of JSON each.
// Before a change is tried its id is told, so that the watcher knows where a process that hangs or dies was.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import vm from "node:vm";
import { tinyRunner } from "./tiny-runner.mjs";

process.env.TZ = "UTC";
const { scripts, packageNames, plan, survey } = JSON.parse(readFileSync(process.argv[2], "utf8"));
const packages = Object.fromEntries(await Promise.all(packageNames.map(async (name) => [name, await import(name)])));
// The same draws for all, and no search for the smallest case: it is enough that one is found.
packages["fast-check"]?.default.configureGlobal({ seed: 20261125, endOnFailure: true });
const require = createRequire(import.meta.url);
/** Waits until it is out: what is still under way is lost at the end. */
const tell = (told) => new Promise((resolve) => process.stdout.write(`${JSON.stringify(told)}\n`, resolve));

const ACTIVE = /stryMutAct_\w+\("(\d+)"\)/;
const COVER = /stryCov_\w+\([^)]*\)/g;
/** A change that is asked for this many times as often as the unchanged code is turns without end. */
const ENDLESS = 100;

let hits = 0;
let mostHits = Number.POSITIVE_INFINITY;
globalThis.changeIsOn = () => {
  if (++hits > mostHits) throw new Error("turns without end");
  return true;
};

/** Text with the switches resolved: all off but one. What is off is a constant, so that it costs nothing. */
function switcher(path) {
  const parts = readFileSync(path, "utf8").replace(COVER, "0").split(ACTIVE);
  return (on) => parts.map((part, i) => (i % 2 === 0 ? part : part === on ? "changeIsOn()" : "false")).join("");
}
/** A script that can be loaded again and again, each time with all its modules fresh. */
function loader(text, path) {
  const run = new vm.Script(`(function (packages, require, module, exports) {${text}\n})`, { filename: path }).runInThisContext();
  return () => {
    const { tests, module } = tinyRunner();
    run({ ...packages, vitest: module }, require, {}, {});
    return tests;
  };
}

/** Which changes each test comes by, and how often; each test on modules of its own, since the first to ask may leave a result to the next. */
async function surveyOf({ file, path }) {
  const text = readFileSync(path, "utf8");
  globalThis.stryMutAct_9fa48 = () => false;
  let counts = {};
  globalThis.stryCov_9fa48 = (...ids) => {
    for (const id of ids) counts[id] = (counts[id] ?? 0) + 1;
  };
  const seen = [];
  const load = loader(text, path);
  const number = load().length;
  const loading = { ...counts };
  for (let i = 0; i < number; i++) {
    const test = load()[i];
    counts = {};
    const began = process.cpuUsage();
    try {
      await test.run();
    } catch (error) {
      console.error(`${file}, ${test.name}:`, error);
      process.exit(1);
    }
    seen.push({ name: test.name, ms: msSince(began), counts });
  }
  await tell({ surveyed: file, loading, tests: seen });
}

/** Of the processor: the machine may be busy with other work. */
function msSince(began) {
  const { user, system } = process.cpuUsage(began);
  return (user + system) / 1000;
}

const switchers = new Map();
async function tryChange({ id, limit, files }) {
  hits = 0;
  mostHits = limit * ENDLESS + 1000;
  for (const { path, tests } of files) {
    if (!switchers.has(path)) switchers.set(path, switcher(path));
    let name = "(loading)";
    try {
      const gathered = loader(switchers.get(path)(id), path)();
      for (const i of tests) {
        name = gathered[i].name;
        await gathered[i].run();
      }
    } catch (error) {
      return { id, outcome: "killed", by: `${name}: ${String(error?.message ?? error).slice(0, 120)}` };
    }
  }
  return { id, outcome: "survived" };
}

if (survey) for (const script of scripts) await surveyOf(script);
// What a changed test leaves behind unawaited is not the next one's business.
process.on("unhandledRejection", () => {});
for (const one of plan) {
  await tell({ at: one.id });
  await tell(await tryChange(one));
}
process.exit(0);
