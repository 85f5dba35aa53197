// Makes a fresh clone ready: installs the packages of the lock file where they are missing or older than it.
// With --browser it also makes sure that a Chromium-family browser is there, and prints its path as the last line on stderr.
import { spawnSync } from "node:child_process";
import { existsSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const top = join(dirname(fileURLToPath(import.meta.url)), "..");

function fail(sentence) {
  console.error(sentence);
  process.exit(1);
}

const [major, minor] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19))
  fail(`Evenhead needs Node.js 20.19 or newer; this is ${process.versions.node}. Install a newer one and run the same command again.`);

const installed = join(top, "node_modules", ".package-lock.json");
const locked = join(top, "package-lock.json");
if (!existsSync(installed) || statSync(installed).mtimeMs < statSync(locked).mtimeMs) {
  console.error("Installing packages (npm ci) ...");
  const npm = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: top,
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  });
  if (npm.status !== 0) fail("npm ci failed; its messages stand above. Check the network, then run the same command again.");
}

if (process.argv.includes("--browser")) {
  const { findBrowser } = await import("./find-browser.mjs");
  if (findBrowser() === null) {
    const root = typeof process.getuid === "function" && process.getuid() === 0;
    if (root && existsSync("/usr/bin/apt-get")) {
      console.error("Installing Debian's chromium for the browser tests ...");
      spawnSync("apt-get", ["update", "-qq"], { stdio: ["ignore", 2, 2] });
      spawnSync("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium", "fonts-dejavu-core"], {
        stdio: ["ignore", 2, 2],
        env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
      });
    }
    if (findBrowser() === null) {
      fail(
        "The browser tests need a Chromium-family browser and found none. Install one (on Debian: apt-get install chromium) or name it: EVENHEAD_BROWSER=/path/to/browser npm test",
      );
    }
  }
}
