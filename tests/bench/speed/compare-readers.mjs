// Readers side by side: each a live process, asked in turn, round after round; the first round warms up, the median of the rest counts.
import { spawn } from "node:child_process";
import { statSync } from "node:fs";
import { createInterface } from "node:readline";
import { median } from "./figures.mjs";

/** A live contender: ask(order) resolves with its figures. */
function start({ name, command }, folder) {
  const child = spawn(command[0], command.slice(1), {
    cwd: folder,
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

/** @param contenders { name, cores, command }[], the first being ours; those that cannot be run are left out and said */
export async function compareReaders(contenders, { path, awkward, rounds, folder }) {
  let live = contenders.map((contender) => start(contender, folder));
  const figures = new Map(live.map(({ name }) => [name, []]));
  const refused = new Map();
  for (let k = 0; k <= rounds; k++) {
    for (const contender of live) {
      try {
        const answer = await contender.ask({ path, awkward });
        if (k > 0) figures.get(contender.name).push(answer);
      } catch (error) {
        refused.set(contender.name, error.message);
      }
    }
    live = live.filter(({ name }) => !refused.has(name));
  }
  for (const { stop } of live) stop();
  const own = figures.get(contenders[0].name);
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
      timesOurs: median(all.map((a, i) => a.ms / own[i].ms)),
      cpuTimesOurs: median(all.map((a, i) => a.cpuMs / own[i].cpuMs)),
    };
  });
}

/** Figures of a column that singles and doubles agree on: the comparison is fair only where all read the same. @returns sentences about those that differ */
export function differingSums(readers) {
  const [ours, ...others] = readers.filter(({ refused }) => refused === undefined);
  return others.flatMap(({ name, rows, sums }) => [
    ...(rows === ours.rows ? [] : [`${name} read ${rows} rows, we ${ours.rows}`]),
    ...sums.flatMap((sum, i) =>
      Math.abs(sum - ours.sums[i]) <= 1e-6 * Math.abs(ours.sums[i])
        ? []
        : [`${name}'s column ${i} sums to ${sum}, ours to ${ours.sums[i]}`],
    ),
  ]);
}
