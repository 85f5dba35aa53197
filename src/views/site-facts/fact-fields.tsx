import { type FactKey, factEntry } from "../../../shared/site/fact-key";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { FACT_GROUPS, FACT_WORDS, SITE_FACTS_WORDS, sayChoice } from "../../../shared/wording/site-fact";
import { sayEntryProblem } from "../../../shared/wording/site-fact-problem";
import type { TermId } from "../../../shared/wording/term";
import { ChoiceField } from "../../parts/choice-field";
import { type Judged, QuantityField } from "../../parts/quantity-field";
import { TermNote } from "../../parts/term-note";
import { completeEntry, type FactEntries, type ReadEntries, readEntries } from "./entries";
import { factReading } from "./fact-reading";
import { factFieldId } from "./go-to-fact";

type Props = {
  readonly entries: FactEntries;
  readonly read: ReadEntries;
  readonly units: UnitChoice;
  readonly onEntries: (entries: FactEntries) => void;
};

/** Explained where they stand. */
const EXPLAINED: Partial<Record<FactKey, TermId>> = {
  setPressure: "set-pressure",
  precharge: "precharge",
  tankVolume: "total-volume",
  cutIn: "cut-in",
  cutOut: "cut-out",
  shortCycleLimit: "short-cycle",
  "limits.startsPerHour": "starts-per-hour",
  "limits.driftAtSteadyFlow": "drift",
  "limits.oscillationPeakToPeak": "oscillation",
};

/** Every fact in the order in which one walks the site; each is checked as it is left, and says how it was read. */
export function FactFields(props: Props) {
  return FACT_GROUPS.map((group) => (
    <fieldset key={group.title} className="fact-group">
      <legend>{group.title}</legend>
      <div className="field-grid">
        {group.facts.map((key) => (
          <FactField key={key} name={key} {...props} />
        ))}
      </div>
    </fieldset>
  ));
}

/** One fact with its label, where it is found, how it was read and what is wrong with it. */
export function FactField({
  name,
  entries,
  read,
  units,
  onEntries,
  fieldId = factFieldId(name),
}: Props & { readonly name: FactKey; readonly fieldId?: string }) {
  const entry = factEntry(name);
  const words = FACT_WORDS[name];
  const value = entries[name] ?? "";
  const commit = (text: string) => onEntries({ ...entries, [name]: completeEntry(name, text, units) });
  const term = EXPLAINED[name];
  if (entry.kind === "choice") {
    const options = entry.options.map((option) => ({ value: option, text: sayChoice(option) }));
    return (
      <ChoiceField
        fieldId={fieldId}
        label={words.label}
        hint={words.where}
        value={value}
        options={[{ value: "", text: SITE_FACTS_WORDS.notKnown }, ...options]}
        onChange={commit}
      />
    );
  }
  const judge = (text: string): Judged => {
    const judged = text === value ? read : readEntries({ ...entries, [name]: completeEntry(name, text, units) });
    const problem = judged.problems.get(name);
    return { problem: problem === undefined ? null : sayEntryProblem(problem), reading: factReading(name, judged.site, units) };
  };
  return (
    <QuantityField
      fieldId={fieldId}
      label={words.label}
      aside={term === undefined ? null : <TermNote id={term}>{SITE_FACTS_WORDS.whatIsThis}</TermNote>}
      hint={words.where}
      example={entry.example}
      value={value}
      judge={judge}
      onCommit={commit}
    />
  );
}
