import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { importLog, type LogFile, NO_CHOICES } from "../../../analysis/import/import-log";
import { ImportError } from "../../../shared/problems/import-problem";
import { sayImportProblem } from "../../../shared/wording/import-problem";
import { BROKEN_SAMPLES } from "../../builders/broken-samples";
import { logFile } from "../../builders/log-file";

const FOLDER = join(import.meta.dirname, "..", "..", "..", "sample-data", "broken");
const problemOf = async (...args: Parameters<typeof importLog>) => {
  const error = await importLog(...args).catch((caught: unknown) => caught);
  if (!(error instanceof ImportError)) throw error;
  return error.problem;
};

describe("what is no log is refused with a sentence that names the file and what to do", () => {
  test.each(BROKEN_SAMPLES.map((sample) => [sample.file, sample] as const))("%s", async (_, { file, bytes, problem }) => {
    const found = await problemOf([logFile(bytes, file)]);
    expect(found.id).toBe(problem);
    expect(sayImportProblem(found, null)).toContain(file);
    expect(sayImportProblem(found, null)).toMatch(/\. [A-Z].*\.$/);
  });
});

test("the files in sample-data are those of the builder", () => {
  for (const { file, bytes } of BROKEN_SAMPLES) {
    if (process.env.RENEW === "1") writeFileSync(join(FOLDER, file), bytes);
    expect(Uint8Array.from(readFileSync(join(FOLDER, file))), file).toEqual(bytes);
  }
});

test("no file at all is a problem of its own", async () => {
  expect(await problemOf([])).toEqual({ id: "no-files" });
});

test("a reading that is stopped keeps nothing", async () => {
  const text = `Time,A\n${Array.from({ length: 50 }, (_, i) => `2024-03-14 08:${10 + i}:00,${i}`).join("\n")}\n`;
  expect(await problemOf([logFile(text)], NO_CHOICES, () => {}, { aborted: true })).toEqual({ id: "stopped" });
});

test("a file that breaks off while it is read gives its own error", async () => {
  const file: LogFile = {
    name: "gone.csv",
    bytes: 10,
    sha256: null,
    // biome-ignore lint/correctness/useYield: it fails before it gives anything
    async *open() {
      throw new Error("device removed");
    },
  };
  expect(await problemOf([file])).toEqual({ id: "cannot-open", file: "gone.csv", why: "device removed" });
});
