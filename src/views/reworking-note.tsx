import { REWORKING } from "../../shared/wording/story";
import type { PageProps } from "./view-props";

/** While what was entered is worked through, the story still shows what stood before: said, so that nobody reads the old as the new. */
export function ReworkingNote({ state }: Pick<PageProps, "state">) {
  const isReworking = "reworking" in state.visit && state.visit.reworking;
  return (
    <p role="status" className="reworking-note" data-busy={isReworking}>
      {isReworking ? REWORKING : ""}
    </p>
  );
}
