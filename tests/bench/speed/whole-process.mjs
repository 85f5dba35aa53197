// Whole processes from start to end: wall, processor time, peak memory (GNU time).
import { spawnSync } from "node:child_process";
import { median } from "./figures.mjs";

/** One run. @returns { ms, cpuMs, peakMiB } or null where it failed */
export function runOnce(command, args, options = {}) {
  const from = performance.now();
  const done = spawnSync("/usr/bin/time", ["-f", "%U %S %M", command, ...args], {
    encoding: "utf8",
    maxBuffer: 1 << 30,
    env: { ...process.env, PATH: `/usr/bin:${process.env.PATH}` },
    ...options,
  });
  const ms = performance.now() - from;
  if (done.status !== 0) return null;
  const [user, system, peak] = done.stderr.trim().split("\n").at(-1).split(" ").map(Number);
  return { ms, cpuMs: (user + system) * 1000, peakMiB: peak / 1024 };
}

/** Processes in turn, round after round, the first round left out. @param processes [name, command, args][] */
export function compareProcesses(processes, rounds, options) {
  const all = new Map(processes.map(([name]) => [name, []]));
  for (let k = 0; k <= rounds; k++)
    for (const [name, command, args] of processes) {
      const run = runOnce(command, args, options);
      if (k > 0) all.get(name).push(run);
    }
  return processes.map(([name]) => {
    const runs = all.get(name);
    if (runs.includes(null)) return { name, refused: "did not run" };
    const of = (key) => median(runs.map((run) => run[key]));
    return { name, ms: of("ms"), cpuMs: of("cpuMs"), peakMiB: of("peakMiB") };
  });
}
