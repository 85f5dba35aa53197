import { expect, test } from "vitest";
import { refusedDocument } from "../../../analysis/document/findings-document";
import type { FindingsDocument } from "../../../shared/schemas/findings-document";
import { sayVersionDifference } from "../../../shared/wording/version-difference";

const document = (program: string, kinds: readonly FindingsDocument["findings"][number]["kind"][], first: string): FindingsDocument => ({
  ...refusedDocument({ kind: "", message: "", file: null, row: null }),
  program,
  error: null,
  findings: kinds.map((kind) => ({
    kind,
    title: "",
    text: "",
    places: [],
    basis: "",
    method: "",
    wrongIf: "",
    sharpenedBy: null,
    overLimit: null,
  })),
  causes: [{ id: first, name: "", confidence: 1, for: [], against: [], toSeparate: "" }],
});

test("the same version says nothing", () => {
  expect(sayVersionDifference(document("1.0.0", ["drift"], "healthy"), document("1.0.0", [], "healthy"))).toEqual([]);
});
test("another version says what is found now, what no longer, and which cause comes first", () => {
  const said = sayVersionDifference(document("0.9.0", ["drift"], "healthy"), document("1.0.0", ["cycling"], "precharge-low"));
  expect(said).toEqual([
    "Saved by version 0.9.0, worked out again by version 1.0.0.",
    "Answered differently now: How does the pump switch? Does pressure drift at steady flow?",
    "The first cause was “Nothing wrong that shows”; now it is “Precharge too low”.",
  ]);
});
test("another version with the same result says that", () => {
  expect(sayVersionDifference(document("0.9.0", ["drift"], "healthy"), document("1.0.0", ["drift"], "healthy"))).toContain(
    "It shows the same, and the first cause is the same.",
  );
});
