// The process that tries changes, watched: where it hangs or dies, that change is noticed (no test run would end green), and the rest go on in a new one.
import { spawn } from "node:child_process";
import { writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { packageNames } from "./bundle.mjs";

const WORKER = join(dirname(fileURLToPath(import.meta.url)), "one-process.mjs");
/** A try may take so many times what its tests took unchanged, and so long besides, ms: the machine may be busy. */
const [SLOWER, GRACE] = [30, 60_000];

/** What a worker tells, line by line; ends with the worker. */
async function* told(work, name, job, limitOf) {
  const file = join(work, name, "job.json");
  writeFileSync(file, JSON.stringify({ packageNames: [...packageNames], ...job }));
  const child = spawn(process.execPath, ["--max-old-space-size=1500", WORKER, file], { stdio: ["ignore", "pipe", 2] });
  let [at, timer] = [null, null];
  const ended = new Promise((resolve) => child.on("exit", resolve));
  for await (const line of createInterface({ input: child.stdout })) {
    const heard = JSON.parse(line);
    clearTimeout(timer);
    at = heard.at ?? null;
    if (at === null) yield heard;
    else timer = setTimeout(() => child.kill("SIGKILL"), limitOf(at));
  }
  clearTimeout(timer);
  if ((await ended) !== 0) yield { died: at };
}

/** @returns by test file: which changes it comes by while it loads, and in each test, how often, and how long that takes */
export async function surveyed(work, name, scripts) {
  const survey = new Map();
  for await (const { surveyed: file, loading, tests } of told(work, name, { scripts, plan: [], survey: true }, () => 0)) {
    if (file === undefined) throw new Error("The tests do not pass unchanged; the message stands above.");
    survey.set(file, { loading, tests });
  }
  return survey;
}

/** The tests that come by a change, quick files first and quick tests first within them; all of a file where it comes by while it loads. */
function planOf({ id }, scripts, survey, quick) {
  let [limit, ms] = [0, 0];
  const files = scripts.flatMap(({ file, path }) => {
    const { loading, tests } = survey.get(file);
    const own = tests
      .map((test, i) => ({ ...test, i }))
      .filter((test) => test.ms <= quick && (loading[id] !== undefined || test.counts[id] !== undefined));
    if (own.length === 0) return [];
    const cost = own.reduce((sum, test) => sum + test.ms, 0);
    limit += (loading[id] ?? 0) + own.reduce((sum, { counts }) => sum + (counts[id] ?? 0), 0);
    ms += cost;
    return [{ path, cost, tests: own.sort((a, b) => a.ms - b.ms).map(({ i }) => i) }];
  });
  return { id, limit, ms, files: files.sort((a, b) => a.cost - b.cost) };
}

/** Tries each change in the order given; gives what came of it as it comes. */
export async function* tried(work, name, scripts, survey, changes, quick) {
  const byId = new Map(changes.map((one) => [one.id, one]));
  const plans = new Map(changes.map((one) => [one.id, planOf(one, scripts, survey, quick)]));
  let left = changes.map(({ id }) => id);
  while (left.length > 0) {
    const done = new Set();
    const plan = left.map((id) => plans.get(id));
    for await (const heard of told(work, name, { scripts, plan, survey: false }, (id) => plans.get(id).ms * SLOWER + GRACE)) {
      const { id, outcome, by } = heard.died === undefined ? heard : { id: heard.died, outcome: "killed", by: "hangs or dies" };
      if (id === null) throw new Error("The process that tries changes died before it tried one.");
      done.add(id);
      yield { ...byId.get(id), outcome: plans.get(id).files.length === 0 ? "unreached" : outcome, by };
    }
    left = left.filter((id) => !done.has(id));
  }
}
