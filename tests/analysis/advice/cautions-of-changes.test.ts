import { expect, test } from "vitest";
import { cautionsOfChanges } from "../../../analysis/advice/cautions-of-changes";

test("a charge is touched only locked out and drained, whatever is changed beside it, and each caution stands once", () => {
  const cautions = cautionsOfChanges([
    { id: "gain", to: 0.5 },
    { id: "precharge", to: 3e5 },
  ]);
  for (const id of ["isolate-power", "wait-for-stored-energy", "relieve-water-first", "marked-pressure", "local-codes-first"] as const)
    expect(cautions.filter((caution) => caution === id)).toHaveLength(1);
});

test("nothing changed, nothing to be careful of", () => expect(cautionsOfChanges([])).toEqual([]));
