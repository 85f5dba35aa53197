import { expect, test } from "vitest";
import type { FileLayout } from "../../../../shared/record/file-layout";
import { shortened } from "../../../../src/views/bring-in/file-head";

type Lines = FileLayout["lines"];
const KINDS = { p: "preamble", h: "heading", d: "data", x: "rejected", f: "footer" } as const;
/** One letter a line. */
const drawn = (text: string): Lines =>
  [...text].map((letter, i) => ({ line: i + 1, text: letter, kind: KINDS[letter as keyof typeof KINDS], cells: null }));
const letters = (lines: Lines) => lines.map((line) => line.text).join("");

test("a long run of data is cut short, all that stands around it stays", () => {
  expect(letters(shortened(drawn(`pph${"d".repeat(30)}xf`)))).toBe("pphddddddxf");
});
test("what follows a line that was not read is shown again", () => {
  expect(letters(shortened(drawn(`h${"d".repeat(12)}x${"d".repeat(12)}`)))).toBe(`hddddddxdddddd${"dd"}`);
});
test("a short head is shown whole", () => {
  expect(letters(shortened(drawn("hdddd")))).toBe("hdddd");
});
