import { Fragment } from "react";
import { ACCEPTANCE_WORDS, STATE_WORDS } from "../../../shared/wording/acceptance";
import { WideTable } from "../../parts/wide-table";
import type { StoryProps } from "../view-props";
import { CompanyLimitsForm } from "./company-limits";
import { LimitsOfThen } from "./limits-of-then";

/** The sheet after installation: one line a check, with its limit, what was measured and the verdict, or what would tell. */
export function Acceptance({ visit, ...page }: StoryProps) {
  return (
    <>
      <p>{ACCEPTANCE_WORDS.intro}</p>
      <LimitsOfThen {...page} />
      <WideTable
        heads={ACCEPTANCE_WORDS.heads}
        rows={visit.document.acceptance.map(({ id, name, limit, value, state, wouldTell }) => ({
          key: id,
          name,
          cells: [
            limit ?? ACCEPTANCE_WORDS.noLimit,
            <span key="measured" className="figure">
              {value}
            </span>,
            <Fragment key="verdict">
              <strong>{STATE_WORDS[state]}</strong>
              {wouldTell === null ? "" : ACCEPTANCE_WORDS.wouldTell(wouldTell)}
            </Fragment>,
          ],
        }))}
      />
      <CompanyLimitsForm {...page} />
    </>
  );
}
