import { readKFactor } from "./column-choices";
import type { ColumnFacts } from "./column-facts";
import type { ColumnReading } from "./column-reading";
import type { FileFacts } from "./file-facts";
import { kFactorInPreamble, kFactorQuestion } from "./meter-pulses";

/** A flow in hertz is the frequency of a meter's pulses: pulses a second times the volume of one. */
export const isMeterFrequency = ({ unit, guess, words }: ColumnFacts): boolean =>
  unit?.unit.quantity === "frequency" && guess.role === "flow" && !/\bpump|\bdrive|\bmotor/.test(words);

/** Flow = frequency * volume of a pulse, which the file says or a person is asked. */
export function readMeterFrequency(base: ColumnReading, facts: ColumnFacts, file: FileFacts): ColumnReading {
  const perPulse = facts.choice.kFactor ?? readKFactor(facts.text) ?? kFactorInPreamble(file.around);
  const question = kFactorQuestion(facts, { kind: "meter-frequency", name: facts.name });
  return {
    ...base,
    role: "flow",
    unit: "Hz",
    quantity: perPulse === null ? "frequency" : "flow",
    factor: perPulse ?? 1,
    certainty: perPulse === null ? 0.6 : 0.9,
    reason: [
      perPulse === null
        ? { kind: "meter-frequency-unknown" }
        : { kind: "meter-frequency", litres: Number((perPulse * 1000).toPrecision(4)) },
    ],
    questions: [...base.questions, ...(perPulse === null ? [question] : [])],
  };
}
