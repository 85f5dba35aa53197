import { describe, expect, test } from "vitest";
import { readColumns } from "../../../../analysis/import/columns/read-columns";
import { choicesOf, columnsOf, contextOf } from "../../../builders/log-columns";

/** A column beside a clock, its two words taking turns. */
function turns(heading: string, words: readonly [string, string], answers: Readonly<Record<string, string>> = {}) {
  const rows = Array.from({ length: 24 }, (_, i) => `2024-05-01 10:00:${String(i).padStart(2, "0")}|${words[i % 5 < 2 ? 0 : 1]}`);
  const [, column] = readColumns(columnsOf(`Time|${heading}`, rows), contextOf(), choicesOf(answers));
  return {
    role: column.role,
    words: Object.fromEntries(column.words),
    asked: column.questions.map(({ id, assumed }) => `${id} ${assumed}`),
  };
}

describe("two words of which none is known", () => {
  test("are asked under the name of a machine", () => {
    expect(turns("Pompe", ["M", "A"])).toEqual({ role: "other", words: {}, asked: ["column-role:Pompe other"] });
  });

  test("are asked under no other heading", () => {
    expect(turns("Operator", ["M", "A"]).asked).toEqual([]);
    expect(turns("Status word", ["OK", "FAULT"]).asked).toEqual([]);
  });

  test("are a running flag once a person says which of them runs", () => {
    expect(turns("Pompe", ["M", "A"], { "column-role:Pompe": "running: A" })).toEqual({
      role: "running",
      words: { m: 0, a: 1 },
      asked: [],
    });
    expect(turns("Pompe", ["M", "A"], { "column-role:Pompe": "other" })).toEqual({ role: "other", words: {}, asked: [] });
  });

  test("refuse an answer that is none of them", () => {
    expect(() => turns("Pompe", ["M", "A"], { "column-role:Pompe": "running: X" })).toThrow("unknown-answer");
  });

  test("a mark and a blank: the mark is taken for running, and it is asked", () => {
    expect(turns("Pump", ["x", ""])).toEqual({ role: "running", words: { x: 1, "": 0 }, asked: ["column-role:Pump running: x"] });
    expect(turns("Pump", ["x", ""], { "column-role:Pump": "running: blank" }).words).toEqual({ x: 0, "": 1 });
  });
});
