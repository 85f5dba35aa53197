// Writes .ci/THIRD-PARTY.md: the packages that end up in what is built, with version and licence, read from their own package files.
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const top = join(dirname(fileURLToPath(import.meta.url)), "..");
const read = (...path) => JSON.parse(readFileSync(join(top, ...path), "utf8"));
const locked = read("package-lock.json").packages;

const rows = Object.entries(locked)
  .filter(
    ([path, entry]) =>
      path.startsWith("node_modules/") &&
      entry.dev !== true &&
      entry.devOptional !== true &&
      entry.optional !== true &&
      entry.peer !== true,
  )
  .map(([path]) => read(path, "package.json"))
  .sort((a, b) => (a.name < b.name ? -1 : 1))
  .map(
    ({ name, version, license }) =>
      `| ${name} | ${version} | ${typeof license === "string" ? license : (license?.type ?? "see package")} |`,
  );

const text = [
  "# Packages in what is built",
  "",
  "Made by `npm run third-party` from the lock file; packages for development only are left out.",
  "",
  "| package | version | licence |",
  "| --- | --- | --- |",
  ...rows,
  "",
].join("\n");
writeFileSync(join(top, ".ci", "THIRD-PARTY.md"), text);
console.log(`THIRD-PARTY.md lists ${rows.length} packages.`);
