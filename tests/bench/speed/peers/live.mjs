// A contender is a live process: it reads a line { path, awkward }, reads that file once, and answers with a line of figures.
import { createInterface } from "node:readline";

/** @param read (path, awkward) => { rows, sums: [first instant s, sum of each channel] } */
export function serve(read) {
  createInterface({ input: process.stdin }).on("line", async (line) => {
    const { path, awkward } = JSON.parse(line);
    const [wall, cpu] = [performance.now(), process.cpuUsage()];
    const { rows, sums } = await read(path, awkward);
    const used = process.cpuUsage(cpu);
    const answer = {
      rows,
      sums,
      ms: performance.now() - wall,
      cpuMs: (used.user + used.system) / 1000,
      peakMiB: process.resourceUsage().maxRSS / 1024,
    };
    process.stdout.write(`${JSON.stringify(answer)}\n`);
  });
}

export const total = (values) => {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return sum;
};
