import { writeFileSync } from "node:fs";
import { Session } from "node:inspector/promises";
import { join } from "node:path";
import fc from "fast-check";
import { CHECKS, type Features, TARGET_IDS, type TargetId } from "./checks";
import { TOP } from "./inputs/bases";
import { FAMILIES, type Family } from "./inputs/inputs-of";
import { smaller } from "./smaller";

/** Told to the process that watches: a line of JSON each. */
type Told =
  | {
      readonly say: "tried";
      readonly target: TargetId;
      readonly count: number;
      readonly bytes: number;
      readonly features: number;
      readonly branches: number;
    }
  | { readonly say: "found"; readonly target: TargetId; readonly what: string; readonly file: string };
const tell = (told: Told) => process.stdout.write(`${JSON.stringify(told)}\n`);

const [secondsText, seedText, only] = process.argv.slice(2);
const until = Date.now() + Number(secondsText) * 1000;
const WORK = join(TOP, "dist", "fuzz");
/** The input now being tried: where the process dies or hangs, the watcher finds it here. */
const NOW = join(WORK, "now.bin");
const BATCH = 20;
const MOST_KEPT = 400;
/** CPU time that one try may take, s, and for each byte of it: far above what reading costs, far below a hang. */
const MOST_SECONDS = 8;

const session = new Session();
session.connect();
await session.post("Profiler.enable");
await session.post("Profiler.startPreciseCoverage", { callCount: false, detailed: true });

const branches = new Set<string>();
/** Branches of the code under test that were reached for the first time since the last call. */
async function newBranches(): Promise<number> {
  const before = branches.size;
  const { result } = await session.post("Profiler.takePreciseCoverage");
  for (const { url, functions } of result) {
    if (!url.includes("/dist/fuzz/")) continue;
    for (const { ranges } of functions)
      for (const { startOffset, endOffset, count } of ranges) if (count > 0) branches.add(`${startOffset}-${endOffset}`);
  }
  return branches.size - before;
}

const seen = new Set<string>();
const pools = new Map<TargetId, Uint8Array[]>(TARGET_IDS.map((id) => [id, []]));
/** How often a family was asked and how much that was new it gave: the ones that give more are asked more. */
const worth = new Map<Family, { asked: number; gave: number }>();
const known = new Set<string>();

export const signatureOf = (error: unknown): string => {
  if (!(error instanceof Error)) return String(error);
  const place = /\n\s+at (?:async )?([\w.$<>]+)/.exec(error.stack ?? "")?.[1] ?? "";
  return error.name === "Fault" ? error.message : `${error.name}: ${error.message.replace(/[\d.]+/g, "n").slice(0, 80)} in ${place}`;
};

async function tryOne(target: TargetId, bytes: Uint8Array): Promise<Features> {
  const before = process.cpuUsage();
  const features = await CHECKS[target](bytes);
  const spent = process.cpuUsage(before);
  if ((spent.user + spent.system) / 1e6 > MOST_SECONDS)
    throw Object.assign(new Error(`took more than ${MOST_SECONDS} s`), { name: "Fault" });
  return features;
}

function pick(families: readonly Family[], random: () => number): Family {
  const weights = families.map((one) => {
    const { asked, gave } = worth.get(one) ?? { asked: 0, gave: 0 };
    return (gave + 2) / (asked + 2);
  });
  let left = random() * weights.reduce((a, b) => a + b);
  for (const [i, weight] of weights.entries()) {
    left -= weight;
    if (left <= 0) return families[i];
  }
  return families[0];
}

/** mulberry32: a seed that can be given again. */
function chance(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const random = chance(Number(seedText));
const targets = TARGET_IDS.filter((id) => only === undefined || id === only);
/** The importer has the most ways to go wrong and gets half of the time. */
const SHARES: Readonly<Record<TargetId, number>> = {
  importer: 8,
  containers: 3,
  corrections: 3,
  "site-file": 1,
  visit: 1,
  archive: 1,
  findings: 1,
};
const turns = targets.flatMap((id) => Array.from({ length: SHARES[id] }, () => id));

for (let turn = 0; Date.now() < until; turn++) {
  const target = turns[turn % turns.length];
  const pool = pools.get(target) ?? [];
  const family = pick(FAMILIES[target], random);
  const tried: Uint8Array[] = [];
  let fresh = 0;
  let size = 0;
  const property = fc.asyncProperty(family.make(pool.slice()), async (bytes) => {
    writeFileSync(NOW, bytes);
    size += bytes.length;
    tried.push(bytes);
    try {
      const features = await tryOne(target, bytes);
      const unseen = features.filter((feature) => !seen.has(`${target} ${feature}`));
      for (const feature of unseen) seen.add(`${target} ${feature}`);
      if (unseen.length > 0) pool.push(bytes);
      fresh += unseen.length;
    } catch (error) {
      if (!known.has(`${target} ${signatureOf(error)}`)) throw error;
    }
  });
  writeFileSync(join(WORK, "now.json"), JSON.stringify({ target, family: family.name }));
  const outcome = await fc.check(property, { numRuns: BATCH, seed: Math.floor(random() * 2 ** 31), endOnFailure: false });
  const branchesNow = await newBranches();
  if (branchesNow > 0 && tried.length > 0) pool.push(tried[Math.floor(random() * tried.length)]);
  while (pool.length > MOST_KEPT) pool.splice(Math.floor(random() * pool.length), 1);
  const sofar = worth.get(family) ?? { asked: 0, gave: 0 };
  worth.set(family, { asked: sofar.asked + 1, gave: sofar.gave + Math.min(10, fresh + branchesNow / 10) });
  tell({ say: "tried", target, count: tried.length, bytes: size, features: seen.size, branches: branches.size });
  if (outcome.failed && outcome.counterexample !== null) await keep(target, outcome.counterexample[0]);
}

/** Makes a found case small and keeps it where the normal test run replays it. */
async function keep(target: TargetId, found: Uint8Array): Promise<void> {
  const signature = async (bytes: Uint8Array) => {
    writeFileSync(NOW, bytes);
    return tryOne(target, bytes).then(
      () => null,
      (error: unknown) => signatureOf(error),
    );
  };
  const what = await signature(found);
  if (what === null) return;
  known.add(`${target} ${what}`);
  const least = await smaller(found, async (bytes) => (await signature(bytes)) === what);
  const name = what
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, 60);
  const file = join(TOP, "tests", "fuzz", "corpus", target, `${name}.bin`);
  writeFileSync(file, least);
  tell({ say: "found", target, what, file });
}

process.exit(0);
