import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { TOP } from "./source-files";

type Locked = {
  readonly version: string;
  readonly integrity?: string;
  readonly hasInstallScript?: boolean;
  readonly dev?: boolean;
  readonly devOptional?: boolean;
  readonly peer?: boolean;
  readonly optional?: boolean;
};
const read = (name: string) => readFileSync(join(TOP, name), "utf8");
const locked = Object.entries((JSON.parse(read("package-lock.json")) as { packages: Record<string, Locked> }).packages).filter(
  ([path]) => path !== "",
);
const project = JSON.parse(read("package.json")) as { dependencies: Record<string, string>; scripts: Record<string, string> };

test("no package runs anything when it is installed", () => {
  expect(locked.length).toBeGreaterThan(50);
  expect(locked.filter(([, { hasInstallScript }]) => hasInstallScript === true).map(([path]) => path)).toEqual([]);
  expect(Object.keys(project.scripts).filter((name) => /^(?:pre|post)?install$|^prepare$/.test(name))).toEqual([]);
});
test("every package is pinned to its content", () => {
  expect(locked.filter(([, { integrity }]) => !/^sha512-/.test(integrity ?? "")).map(([path]) => path)).toEqual([]);
});
test("what is shipped is few packages, each with its licence in the list", () => {
  const shipped = locked.filter(([, { dev, devOptional, optional, peer }]) => !(dev ?? devOptional ?? optional ?? peer ?? false));
  expect(shipped.length).toBeLessThan(30);
  const list = read(".ci/THIRD-PARTY.md");
  for (const [path, { version }] of shipped) {
    const name = path.slice(path.lastIndexOf("node_modules/") + "node_modules/".length);
    expect(list, name).toContain(name);
    expect(
      list.split("\n").some((line) => line.includes(name) && line.includes(version)),
      `${name} ${version}`,
    ).toBe(true);
  }
});
