import { comparedVisits } from "../../../analysis/comparison/before-and-after";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { VISITS_WORDS } from "../../../shared/wording/visits";
import { Disclosure } from "../../parts/disclosure";
import type { ShownFile } from "../../state/use-opening";
import { ComparisonTable } from "../before-and-after/comparison-table";

/** A visit that came without its log: read as it was written, in the units of whoever saved it. It cannot be worked out again. */
export function KeptSummary({ shown, units }: { readonly shown: ShownFile; readonly units: UnitChoice }) {
  const { visit } = shown;
  const { findings } = visit;
  return (
    <section className="kept-summary" aria-labelledby="kept-summary">
      <h3 id="kept-summary">
        <bdi>{visit.about?.title ?? shown.name}</bdi>
      </h3>
      <p className="soft">{VISITS_WORDS.savedWithoutLog(visit.about?.program ?? null)}</p>
      {findings === null ? <p>{VISITS_WORDS.noFindings}</p> : null}
      <ul>
        {findings?.findings.map((finding) => (
          <li key={finding.kind}>
            <strong>{finding.title}</strong> {finding.text}
          </li>
        ))}
      </ul>
      {findings === null || findings.advice.length === 0 ? null : (
        <Disclosure summary={VISITS_WORDS.steps}>
          <ul>
            {findings.advice.map((step) => (
              <li key={step.id}>
                {step.do} {step.amount ?? ""}
                {step.cautions.map((caution) => (
                  <span key={caution} className="kept-caution">
                    {caution}
                  </span>
                ))}
              </li>
            ))}
          </ul>
        </Disclosure>
      )}
      {visit.before === null || visit.measures === null ? null : (
        <ComparisonTable
          compared={comparedVisits(visit.before, { name: visit.about?.title ?? shown.name, measures: visit.measures })}
          units={units}
        />
      )}
      {visit.checklist === null || visit.checklist.notes === "" ? null : (
        <p>
          {VISITS_WORDS.notes}
          <bdi>{visit.checklist.notes}</bdi>
        </p>
      )}
    </section>
  );
}
