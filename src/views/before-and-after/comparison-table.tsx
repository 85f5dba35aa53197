import type { ComparedVisits } from "../../../shared/findings/comparison";
import { formatMeasured, formatQuantity } from "../../../shared/units/format-quantity";
import type { Measured } from "../../../shared/units/measured";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { COMPARISON_WORDS, MEASURES, sayHowCompared, VERDICT_WORDS, WHY_NOT_COMPARED } from "../../../shared/wording/comparison";
import { WideTable } from "../../parts/wide-table";

type Props = { readonly compared: ComparedVisits; readonly units: UnitChoice };

/** Verdict first, then one row a measure. */
export function ComparisonTable({ compared: { comparison, beforeName, afterName }, units }: Props) {
  const { measures, overall } = comparison;
  return (
    <>
      <h3>{VERDICT_WORDS[overall]}</h3>
      <WideTable
        heads={COMPARISON_WORDS.heads}
        caption={COMPARISON_WORDS.compared(beforeName, afterName)}
        rows={measures.map(({ id, before, after, difference, limit, verdict, because }) => {
          const { name, shown } = MEASURES[id];
          const write = (m: Measured | null) => (m === null ? COMPARISON_WORDS.notKnown : formatMeasured(m, shown, units));
          return {
            key: id,
            name,
            cells: [
              write(before),
              write(after),
              write(difference),
              limit === null ? COMPARISON_WORDS.noLimit : formatQuantity(limit, shown, units, 2),
              `${VERDICT_WORDS[verdict]}${because === null ? "" : `: ${WHY_NOT_COMPARED[because]}`}`,
            ],
          };
        })}
      />
      {sayHowCompared(comparison, units).map((sentence) => (
        <p key={sentence} className="aside">
          {sentence}
        </p>
      ))}
    </>
  );
}
