import type { FindingKind } from "../../../shared/findings/finding";
import type { Dispatch } from "../../state/visit-reducer";

/** Lights a finding and brings its pictures into sight. */
export function goToLooks(dispatch: Dispatch, finding: FindingKind): void {
  dispatch({ do: "select", selection: { finding, span: null } });
  requestAnimationFrame(() => {
    const heading = document.getElementById("closer-looks");
    heading?.scrollIntoView({ block: "start" });
  });
}
