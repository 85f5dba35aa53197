import { describe, expect, test } from "vitest";
import type { ImportChoices } from "../../../analysis/import/import-choices";
import { sayCorrection } from "../../../shared/wording/correction";
import { contentOf } from "../../../src/state/use-autosave";
import { choicesFrom, correctionOf } from "../../../src/state/use-corrections";
import { makeIdentities } from "../../../src/state/visit-identities";
import { fileLayout, layoutColumn } from "../../builders/file-layouts";
import { visitFile } from "../../builders/visit-files";

describe("a visit keeps its identity", () => {
  test("through readings of the same files, and other files are another visit", () => {
    let made = 0;
    const ids = makeIdentities(() => `visit-${++made}`);
    const [files, others] = [[], []];
    expect(ids.of(files).id).toBe("visit-1");
    expect(ids.of(files).id).toBe("visit-1");
    expect(ids.of(others).id).toBe("visit-2");
    ids.note(files, { id: "kept", revision: 3, content: null });
    expect(ids.of(files)).toEqual({ id: "kept", revision: 3, content: null });
  });
  test("two saves of the same content are one, whenever they are made", () => {
    const later = visitFile({ about: { id: "visit-1", title: "Hill Farm", saved: "2030-01-01T00:00:00.000Z", program: "0.1.0" } });
    expect(contentOf(later)).toBe(contentOf(visitFile()));
    expect(contentOf(visitFile({ site: {} }))).not.toBe(contentOf(visitFile()));
  });
});

describe("corrections", () => {
  const layout = fileLayout({
    signature: "Time|Ch1",
    columns: [layoutColumn({ heading: "Time", index: 0 }), layoutColumn({ heading: "Ch1" })],
  });
  const choices: ImportChoices = {
    answers: { "date-order": "dmy", "range:Ch1": "0..10 bar", "unit:Elsewhere": "psi" },
    columns: [
      { heading: "Ch1", role: "pressure", unit: "mA" },
      { heading: "Elsewhere", role: "flow", unit: null },
    ],
    zone: "Europe/Lisbon",
  };

  test("are remembered for the headings they belong to, without the zone of one site", () => {
    const correction = correctionOf(layout, choices, 0);
    expect(correction.answers).toEqual({ "date-order": "dmy", "range:Ch1": "0..10 bar" });
    expect(correction.columns).toEqual([{ heading: "Ch1", role: "pressure", unit: "mA" }]);
    expect(choicesFrom([correction])).toEqual({ answers: correction.answers, columns: correction.columns, zone: null });
  });
  test("of a role that is not known any more are left out", () => {
    const old = { ...correctionOf(layout, choices, 0), columns: [{ heading: "Ch1", role: "steam", unit: null }] };
    expect(choicesFrom([old]).columns).toEqual([]);
  });
  test("are said as a person would", () => {
    expect(sayCorrection(correctionOf(layout, choices, 0))).toEqual([
      "Ch1 is pressure in mA",
      "dates are day, month, year",
      "Ch1: range 0..10 bar",
    ]);
  });
});
