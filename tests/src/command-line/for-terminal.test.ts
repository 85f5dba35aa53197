import { expect, test } from "vitest";
import { refusedDocument } from "../../../analysis/document/findings-document";
import { forTerminal } from "../../../src/command-line/for-terminal";
import { printSummary } from "../../../src/command-line/print-summary";

test("a name from a file cannot steer the terminal", () => {
  expect(forTerminal("\u001b[2J\u001b]0;x\u0007P1\u009b31m \u202egnp.exe")).toBe("\ufffd[2J\ufffd]0;x\ufffdP1\ufffd31m \ufffdgnp.exe");
  expect(forTerminal("Pressure é ½ °C\t5\n")).toBe("Pressure é ½ °C\t5\n");
});
test("the summary is printed without it", () => {
  const document = refusedDocument({ kind: "example", message: "", file: null, row: null });
  const record = { ...document.record, files: [{ name: "\u001b[31mlog.csv", bytes: 1, sha256: null }] };
  expect(printSummary({ ...document, record })).toContain("\ufffd[31mlog.csv");
});
