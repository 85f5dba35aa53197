import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { CHECKS, TARGET_IDS } from "./checks";

const casesOf = (target: string): string[] => {
  const folder = join(import.meta.dirname, "corpus", target);
  return existsSync(folder) ? readdirSync(folder).sort() : [];
};

/** Files on which a reader once crashed, hung or said nothing a person could use; each check throws where it does so again. */
describe.each(TARGET_IDS.filter((target) => casesOf(target).length > 0))("what the fuzzer found in %s stays mended", (target) => {
  test.each(casesOf(target))("%s", async (name) => {
    const bytes = Uint8Array.from(readFileSync(join(import.meta.dirname, "corpus", target, name)));
    expect(await CHECKS[target](bytes)).toBeInstanceOf(Array);
  });
});
