// npm run bench:truth [-- NAME [SIZE]]: how well each part tells the truth on simulated sites; a table in Markdown each. See tests/bench/README.md.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** One entry a file beside this one: its own truth, its own table. */
const BENCHES = ["causes", "changes", "predictions", "pump", "signals", "water"];
/** Only by name: it may change the tables. */
const TOOLS = ["fit-causes"];

const top = join(dirname(fileURLToPath(import.meta.url)), "..", "..", "..");
const vite = join(top, "node_modules", "vite", "bin", "vite.js");
const [only, ...size] = process.argv.slice(2);
const run = (args) => spawnSync(process.execPath, args, { cwd: top, stdio: ["ignore", "inherit", "inherit"] }).status ?? 1;

for (const name of only === undefined ? BENCHES : [...BENCHES, ...TOOLS].filter((bench) => bench === only)) {
  const entry = ["--ssr", `../tests/bench/truth/${name}.ts`, "--outDir", "../dist/bench", "--logLevel", "error", "--emptyOutDir", "false"];
  process.exitCode ||= run([vite, "build", "src", ...entry]) || run([join(top, "dist", "bench", `${name}.js`), ...size]);
}
