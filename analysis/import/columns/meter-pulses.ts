import type { ChannelRole } from "../../../shared/record/channel-role";
import type { ImportQuestion } from "../../../shared/record/import-question";
import { firstUnread } from "../statement-words";
import { readKFactor } from "./column-choices";
import type { ColumnFacts } from "./column-facts";
import type { ColumnReading } from "./column-reading";
import type { FileFacts } from "./file-facts";

/** Asks for the volume of one pulse of a meter. */
export const kFactorQuestion = (
  { name }: ColumnFacts,
  asks: ImportQuestion["asks"],
  proposals: readonly string[] = [],
): ImportQuestion => ({
  id: `k-factor:${name}`,
  asks,
  options: [...new Set([...proposals, "1 L/pulse", "10 L/pulse", "1 pulses/gal", "10 gal/pulse"])],
  assumed: "none",
});

export function isPulses({ text, unit, words }: ColumnFacts, role: ChannelRole): boolean {
  if (unit !== null && unit.unit.quantity !== "fraction") return false;
  return (
    (role === "volume" || role === "flow" || role === "other") &&
    /\bpuls(?:e|es|os|en)?\b|\bimpuls\w*\b|\bimp\b|\bticks?\b/i.test(`${words} ${text}`)
  );
}

/** Pulses become a volume by the meter's K-factor, asked where nothing names it. */
export function readPulses(base: ColumnReading, facts: ColumnFacts, file: FileFacts): ColumnReading {
  const told = readKFactor(facts.text) ?? kFactorInPreamble(file.around);
  const unclear = told === null ? firstUnread("pulse", file.around, (line) => readKFactor(line) !== null) : null;
  const proposals = unclear === null || !(unclear.number > 0) ? [] : [`${unclear.number} L/pulse`, `${unclear.number} pulses/L`];
  const perPulse = facts.choice.kFactor ?? told;
  const question = kFactorQuestion(facts, { kind: "pulses", name: facts.name, line: unclear?.line ?? null }, proposals);
  return {
    ...base,
    role: facts.choice.role ?? "volume",
    unit: "pulses",
    quantity: perPulse === null ? "none" : "volume",
    factor: perPulse ?? 1,
    counter: { kind: "pulses", cubicMetrePerCount: perPulse },
    certainty: perPulse === null ? 0.6 : 0.9,
    reason: [perPulse === null ? { kind: "pulses-unknown" } : { kind: "pulses", litres: Number((perPulse * 1000).toPrecision(4)) }],
    questions: [...base.questions, ...(perPulse === null ? [question] : [])],
  };
}

export const kFactorInPreamble = (preamble: readonly string[]): number | null => {
  for (const line of preamble) {
    const factor = /puls|imp|k[- ]?fac|k[- ]?fakt|facteur k|factor k|fator k|fattore k/i.test(line) ? readKFactor(line) : null;
    if (factor !== null) return factor;
  }
  return null;
};
