import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checksum } from "../../../shared/schemas/checksum";
import { readVisitFile, VISIT_VERSION, writeVisitFile } from "../../../shared/schemas/visit-file";
import { sayLostPart, sayVisitFileProblem } from "../../../shared/wording/visit-file-problem";
import { visitFile } from "../../builders/visit-files";

test("CRC-32 gives its published check value", () => {
  expect(checksum("123456789")).toBe("cbf43926"); // the check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms
  expect(checksum("")).toBe("00000000");
});

describe("a visit file", () => {
  test("goes there and back, whole or with parts not saved", () => {
    expect(readVisitFile(writeVisitFile(visitFile()))).toEqual({ visit: visitFile(), lost: [], problem: null });
    const small = visitFile({ findings: null, trace: null, log: null });
    expect(readVisitFile(writeVisitFile(small))).toEqual({ visit: small, lost: [], problem: null });
  });
  test("goes there and back whatever was noted in it", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), fc.string({ unit: "grapheme" }), (note, title) => {
        const about = { id: "a", title, saved: "2024-05-04T10:00:00.000Z", program: "0.1.0" };
        const visit = visitFile({ about, checklist: { entries: [], notes: note } });
        const read = readVisitFile(writeVisitFile(visit));
        expect(read.visit?.checklist?.notes).toBe(note);
        expect(read.visit?.about?.title).toBe(title);
      }),
      { numRuns: 200, seed: 7 },
    );
  });
  test("is plain JSON that any program can read", () => {
    expect(JSON.parse(writeVisitFile(visitFile()))).toMatchObject({ format: "evenhead-visit", version: VISIT_VERSION });
  });
  test("written again by another program in another layout is still the same visit", () => {
    const pretty = JSON.stringify(JSON.parse(writeVisitFile(visitFile())), null, 2);
    expect(readVisitFile(pretty)).toEqual({ visit: visitFile(), lost: [], problem: null });
  });
  test("of version 1 is read for good", () => {
    const kept = readFileSync(new URL("visit-version-1.json", import.meta.url), "utf8");
    const read = readVisitFile(kept);
    expect(read).toMatchObject({ lost: [], problem: null, visit: { findings: { format: "evenhead-findings", version: 1 } } });
    // The findings document grows by itself; measures came with version 2.
    expect({ ...read.visit, findings: null }).toEqual(visitFile({ findings: null, measures: null, before: null }));
  });
  test("of version 2 is read for good", () => {
    const kept = readFileSync(new URL("visit-version-2.json", import.meta.url), "utf8");
    const read = readVisitFile(kept);
    expect(read).toMatchObject({ lost: [], problem: null });
    // The earlier visit that it is compared with came with version 3.
    expect({ ...read.visit, findings: null }).toEqual(visitFile({ findings: null, before: null }));
  });
  test("of version 3 is read for good", () => {
    const kept = readFileSync(new URL("visit-version-3.json", import.meta.url), "utf8");
    const read = readVisitFile(kept);
    expect(read).toMatchObject({ lost: [], problem: null });
    expect({ ...read.visit, findings: null }).toEqual(visitFile({ findings: null }));
  });
  test("with measures that do not fit one another costs them and nothing else", () => {
    const { measures } = visitFile();
    const uneven = { ...measures!, blocks: { ...measures!.blocks, starts: [1, 2] } };
    const read = readVisitFile(writeVisitFile(visitFile({ measures: uneven })));
    expect(read).toEqual({ visit: visitFile({ measures: null }), lost: [{ part: "measures", why: "wrong-shape" }], problem: null });
  });
});

describe("damage to a visit file", () => {
  const text = writeVisitFile(visitFile());
  const lines = text.split("\n");
  const lineOf = (part: string) => lines.findIndex((line) => line.startsWith(`"${part}":`));

  test.each(["about", "site", "choices", "checklist", "findings", "measures", "before", "trace", "log"])(
    "a broken line costs %s and nothing else",
    (part) => {
      const broken = lines.with(lineOf(part), `"${part}":{"x#,`).join("\n");
      const { visit, lost } = expectRead(broken);
      expect(lost).toEqual([{ part, why: "unreadable" }]);
      expect(visit).toEqual({ ...visitFile(), [part]: null });
    },
  );
  test("a changed number in sound JSON is noticed by its checksum", () => {
    const { visit, lost } = expectRead(text.replace("3600", "3601"));
    expect(lost).toEqual([{ part: "trace", why: "changed" }]);
    expect(visit.trace).toBeNull();
    expect(visit.findings).not.toBeNull();
  });
  test("a part of a shape that is not ours is left out", () => {
    const { visit, lost } = expectRead(
      '{"format":"evenhead-visit","version":1,"site":{"setPressure":52},"checklist":{"entries":[],"notes":"n"}}',
    );
    expect(lost).toContainEqual({ part: "site", why: "wrong-shape" });
    expect(visit.checklist?.notes).toBe("n");
  });
  test("a file cut short anywhere never throws and keeps every part that was whole", () => {
    for (let end = 1; end < text.length; end++) {
      const read = readVisitFile(text.slice(0, end));
      const wholeLines = text.slice(0, end).split("\n").length - 1;
      if (wholeLines > lineOf("choices")) {
        expect(read.visit?.about).toEqual(visitFile().about);
        expect(read.visit?.choices).toEqual(visitFile().choices);
      }
    }
  });
  test("any byte turned into another never gives a part that differs from the one saved", () => {
    fc.assert(
      fc.property(fc.nat(text.length - 1), fc.integer({ min: 32, max: 126 }), (at, code) => {
        const { visit } = readVisitFile(text.slice(0, at) + String.fromCharCode(code) + text.slice(at + 1));
        const whole = visitFile();
        for (const part of ["about", "site", "choices", "checklist", "trace", "log"] as const) {
          if (visit !== null && visit[part] !== null) expect(visit[part]).toEqual(whole[part]);
        }
      }),
      { numRuns: 2000, seed: 11 },
    );
  });

  function expectRead(damaged: string) {
    const read = readVisitFile(damaged);
    if (read.visit === null) throw new Error(`refused: ${read.problem.id}`);
    return read;
  }
});

describe("a file that is refused says why and what to do", () => {
  test.each([
    ["", "empty"],
    ["Time,P1\n1,2\n", "not-a-visit"],
    ['{"format":"evenhead-findings"}', "not-a-visit"],
    ['{"format":"evenhead-visit","version":99}', "newer-version"],
    ['{"format":"evenhead-visit","version":1}', "nothing-left"],
  ])("%j is %s", (text, id) => {
    const { problem } = readVisitFile(text);
    expect(problem?.id).toBe(id);
    if (problem !== null) expect(sayVisitFileProblem(problem, "visit.json")).toMatch(/^visit\.json .*\.$/);
  });
  test("a lost part is named in words", () => {
    expect(sayLostPart({ part: "site", why: "changed" })).toBe("The site facts: not as it was saved, and left out.");
  });
});

test("an older version is brought up step by step", () => {
  const upgraders = new Map([
    [VISIT_VERSION, (parts: ReadonlyMap<string, unknown>) => new Map([...parts, ["step", "one"]])],
    [VISIT_VERSION + 1, (parts: ReadonlyMap<string, unknown>) => new Map([...parts, ["site", { name: String(parts.get("step")) }]])],
  ]);
  const read = readVisitFile(writeVisitFile(visitFile()), upgraders, VISIT_VERSION + 2);
  expect(read.visit?.site).toEqual({ name: "one" });
});
