// Runs the command line, building it first where its sources are newer than the last build.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const top = join(dirname(fileURLToPath(import.meta.url)), "..");
const built = join(top, "dist", "command-line", "main.js");

const newest = (folder) =>
  Math.max(
    ...readdirSync(join(top, folder), { withFileTypes: true, recursive: true })
      .filter((entry) => entry.isFile())
      .map((entry) => statSync(join(entry.parentPath ?? entry.path, entry.name)).mtimeMs),
    0,
  );

const stale = () => !existsSync(built) || statSync(built).mtimeMs < Math.max(newest("shared"), newest("analysis"), newest("src"));

if (stale()) {
  const prepared = spawnSync(process.execPath, [join(top, ".ci", "prepare.mjs")], { stdio: ["ignore", 2, 2] });
  if (prepared.status !== 0) process.exit(prepared.status ?? 1);
  const vite = join(top, "node_modules", "vite", "bin", "vite.js");
  const build = spawnSync(
    process.execPath,
    [vite, "build", "src", "--ssr", "command-line/main.ts", "--outDir", "../dist/command-line", "--logLevel", "error"],
    {
      cwd: top,
      stdio: ["ignore", 2, 2],
    },
  );
  if (build.status !== 0) process.exit(build.status ?? 1);
}
const { main } = await import(pathToFileURL(built).href);
process.exitCode = await main(process.argv.slice(2));
