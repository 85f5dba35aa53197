import { expect, test } from "vitest";
import { fileNameFrom } from "../../../src/parts/save-as-file";

test("a plain name stays", () => {
  expect(fileNameFrom("Hill Farm 2024-05-03.json")).toBe("Hill Farm 2024-05-03.json");
  expect(fileNameFrom("Höhe Süd.json")).toBe("Höhe Süd.json");
});
test("what a file system or a shell would take amiss is left out", () => {
  expect(fileNameFrom('../a/b:"<c>"|d?.json')).toBe("a-b-c-d-.json");
  expect(fileNameFrom("...")).toBe("evenhead");
  expect(fileNameFrom("")).toBe("evenhead");
  expect(fileNameFrom("x".repeat(500)).length).toBe(120);
});
