// The tool that makes the changes, installed beside the build.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync } from "node:fs";
import { join } from "node:path";

const TOOL = ["@stryker-mutator/instrumenter@9.6.1", "@stryker-mutator/api@9.6.1", "typed-inject@5.0.0"];

export function installed(work) {
  mkdirSync(work, { recursive: true });
  if (existsSync(join(work, "node_modules", "@stryker-mutator", "instrumenter"))) return;
  console.error("Installing the mutation tester beside the build ...");
  const npm = spawnSync("npm", ["install", "--no-save", "--no-audit", "--no-fund", "--loglevel=error", "--prefix", work, ...TOOL], {
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  });
  if (npm.status === 0) return;
  console.error("It could not be installed; npm's messages stand above.");
  process.exit(1);
}
