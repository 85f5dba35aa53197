// Writes the sample visits anew: simulated from a seed, so that the same source gives the same files.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const top = join(dirname(fileURLToPath(import.meta.url)), "..");
const vite = join(top, "node_modules", "vite", "bin", "vite.js");
const build = spawnSync(
  process.execPath,
  [vite, "build", "src", "--ssr", "../tests/builders/write-samples.ts", "--outDir", "../dist/samples", "--logLevel", "error"],
  { cwd: top, stdio: ["ignore", 2, 2] },
);
if (build.status !== 0) process.exit(build.status ?? 1);
const { writeSamples } = await import(pathToFileURL(join(top, "dist", "samples", "write-samples.js")).href);
writeSamples(join(top, "sample-data", "visits"));
