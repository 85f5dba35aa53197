import { describe, expect, test } from "vitest";
import { FINDING_KINDS, type Finding } from "../../../shared/findings/finding";
import { seconds } from "../../../shared/units/quantity";
import { US_UNITS } from "../../../shared/units/unit-choice";
import { calculationOf } from "../../../shared/wording/calculation";
import { sayFinding } from "../../../shared/wording/finding";
import { about, foundWith, gpm, psiDifference, siteOf, swing } from "../../builders/outcomes";

const clock = { kind: "elapsed" } as const;
const site = siteOf();
const units = { ...US_UNITS, locale: "en-US" };
const drifting = {
  windows: [{ from: seconds(0), to: seconds(382), meanFlow: gpm(39), change: about(psiDifference(5.8)), over: true }],
};
const outcomeOf = (kind: Finding["kind"]) =>
  kind === "oscillation" ? swing(10.6, 3.8, "loop") : kind === "drift" ? foundWith("drift", drifting) : foundWith(kind);
const findingOfKind = (kind: Finding["kind"]): Finding => {
  const outcome = outcomeOf(kind);
  if (outcome.state !== "found") throw new Error(kind);
  return outcome.finding;
};

/** All that stands in a calculation, as one text. */
function written(finding: Finding): string {
  const { formula, lines, table } = calculationOf(finding, { site, clock, units });
  const cells = table === null ? [] : [...table.head, ...table.rows.flat()];
  return [formula ?? "", ...lines.flatMap(({ what, value }) => [what, value]), ...cells].join(" | ");
}

/** Numbers as a sentence has them: "31", "1.49", "12,125". */
const numbersIn = (text: string): string[] => text.replaceAll(",", "").match(/\d+(?:\.\d+)?/g) ?? [];
/** Sentence and calculation may show the same number with more or fewer figures. A ratio may stand as per cent. */
const isAmong = (number: string, known: readonly string[]): boolean => {
  const decimals = number.split(".")[1]?.length ?? 0;
  return known.some((other) => [1, 0.01].some((scale) => Math.abs(Number(number) - Number(other) * scale) <= 0.5 * 10 ** -decimals + 1e-9));
};

describe("how a finding was worked out", () => {
  test.each(FINDING_KINDS)("%s: every number that is told stands in its calculation", (kind) => {
    const finding = findingOfKind(kind);
    const { title, text } = sayFinding(finding, units);
    const known = numbersIn(written(finding));
    expect(numbersIn(`${title} ${text}`).filter((number) => !isAmong(number, known))).toEqual([]);
  });
});
