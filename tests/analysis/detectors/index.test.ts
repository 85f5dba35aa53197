import { expect, test } from "vitest";
import { DETECTORS, detectAll } from "../../../analysis/detectors";
import { CANNOT_TELL_IDS, CANNOT_TELL_TOPICS } from "../../../shared/findings/cannot-tell";
import { FINDING_KINDS } from "../../../shared/findings/finding";
import { evidenceOf } from "../../builders/evidence";
import { evidenceOf as knownEvidence } from "../../builders/known-evidence";
import { channel, every, recordOf } from "../../builders/record";
import { someDraws, tankLog, usualTank } from "../../builders/tank-log";

const FACTS = { tankVolume: "20 gal", precharge: "38 psi", tankRatedPressure: "100 psi", flowMeter: "after-tank", pumpRatedFlow: "12 gpm" };
const record = tankLog({ ...usualTank, draw: someDraws, seconds: 3600, noise: 300 });

test("every question has its detector, in the order of the report", () => {
  expect(DETECTORS.map(({ kind }) => kind)).toEqual([...FINDING_KINDS]);
});
test("each gives one answer of its own kind, with limits and reasons out of the list", () => {
  const outcomes = [
    ...detectAll(evidenceOf(record, FACTS)),
    ...detectAll(evidenceOf(record)),
    ...detectAll(knownEvidence(recordOf([channel("flow", every(1, 9), new Array(9).fill(1))]))),
    ...detectAll(evidenceOf(record, { ...FACTS, tankRatedPressure: "50 psi" })),
  ];
  expect(outcomes.map(({ kind }) => kind)).toEqual([...FINDING_KINDS, ...FINDING_KINDS, ...FINDING_KINDS, ...FINDING_KINDS]);
  expect(outcomes.filter(({ state }) => state === "broken")).toEqual([]);
  for (const outcome of outcomes) {
    if (outcome.state === "found") expect(outcome.finding.kind).toBe(outcome.kind);
    const reasons = outcome.state === "cannot-tell" ? outcome.because : outcome.state === "broken" ? [] : outcome.limits;
    for (const { id, about } of reasons) {
      expect(CANNOT_TELL_IDS).toContain(id);
      expect(CANNOT_TELL_TOPICS).toContain(about);
    }
  }
  expect(new Set(outcomes.map(({ state }) => state))).toEqual(new Set(["found", "clear", "cannot-tell"]));
});
test("one that breaks says so and leaves the others alone", () => {
  const broken = { ...evidenceOf(record), segments: { ...evidenceOf(record).segments, pump: null as never } };
  const told: string[] = [];
  const outcomes = detectAll(broken, ({ part, id, message }) => told.push(`${part} ${id} ${message.length > 0}`));
  const failed = outcomes.filter(({ state }) => state === "broken").map(({ kind }) => kind);
  expect(failed.length).toBeGreaterThan(0);
  expect(failed.length).toBeLessThan(FINDING_KINDS.length);
  expect(told).toEqual(failed.map((kind) => `detector ${kind} true`));
  expect(detectAll(broken)).toEqual(outcomes);
});
