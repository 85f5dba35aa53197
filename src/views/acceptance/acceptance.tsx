import { STATE_WORDS } from "../../../shared/wording/acceptance";
import { WideTable } from "../../parts/wide-table";
import type { StoryProps } from "../view-props";
import { CompanyLimitsForm } from "./company-limits";

/** The sheet after installation: one line a check, with its limit, what was measured and the verdict, or what would tell. */
export function Acceptance({ visit, ...page }: StoryProps) {
  return (
    <>
      <p>
        Limits come from the site facts where they are given there, else from your company; otherwise they are assumed or usual in the
        trade, and marked so. This sheet clears nothing for safety: local codes and the equipment's own instructions come first.
      </p>
      <WideTable heads={["Check", "Limit", "Measured", "Verdict"]}>
        {visit.document.acceptance.map((line) => (
          <tr key={line.id}>
            <th scope="row">{line.name}</th>
            <td>{line.limit ?? "no limit known"}</td>
            <td>{line.value}</td>
            <td>
              <strong>{STATE_WORDS[line.state]}</strong>
              {line.wouldTell === null ? "" : `. What would tell: ${line.wouldTell}`}
            </td>
          </tr>
        ))}
      </WideTable>
      <CompanyLimitsForm {...page} />
    </>
  );
}
