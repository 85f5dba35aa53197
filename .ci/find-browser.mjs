// Finds a Chromium-family browser: the one named in EVENHEAD_BROWSER, else the usual names on PATH, else the usual places.
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";

const NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge"];
const PLACES = [
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];

/** Path of a browser, or null. */
export function findBrowser() {
  const named = process.env.EVENHEAD_BROWSER;
  if (named) return existsSync(named) ? named : null;
  const folders = (process.env.PATH ?? "").split(delimiter);
  const onPath = folders.flatMap((folder) => NAMES.map((name) => join(folder, name)));
  return [...onPath, ...PLACES].find((path) => existsSync(path)) ?? null;
}
