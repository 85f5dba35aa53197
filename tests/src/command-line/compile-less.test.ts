import { spawnSync } from "node:child_process";
import { expect, test } from "vitest";
import { engineFlags } from "../../../src/command-line/compile-less";

test("this engine takes the flags that it is given without a word", () => {
  const script = `for (const flag of ${JSON.stringify(engineFlags(process.versions.node))}) require("node:v8").setFlagsFromString(flag)`;
  const { status, stdout, stderr } = spawnSync(process.execPath, ["-e", script], { encoding: "utf8" });
  expect({ status, stdout, stderr }).toEqual({ status: 0, stdout: "", stderr: "" });
});

test("later engines, which refuse some and are slowed by others, are given none", () => {
  expect(engineFlags("20.19.0").length).toBeGreaterThan(0);
  for (const version of ["22.12.0", "24.0.1", "200.1.0"]) expect(engineFlags(version)).toEqual([]);
});
