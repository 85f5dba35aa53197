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
      <WideTable heads={ACCEPTANCE_WORDS.heads}>
        {visit.document.acceptance.map((line) => (
          <tr key={line.id}>
            <th scope="row">{line.name}</th>
            <td>{line.limit ?? ACCEPTANCE_WORDS.noLimit}</td>
            <td className="figure">{line.value}</td>
            <td>
              <strong>{STATE_WORDS[line.state]}</strong>
              {line.wouldTell === null ? "" : ACCEPTANCE_WORDS.wouldTell(line.wouldTell)}
            </td>
          </tr>
        ))}
      </WideTable>
      <CompanyLimitsForm {...page} />
    </>
  );
}
