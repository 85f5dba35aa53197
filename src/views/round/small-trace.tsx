import type { ThinTrace } from "../../../shared/schemas/visit-parts";
import { smallTracePath } from "./small-trace-path";

const [WIDE, TALL] = [140, 32];

/** The pressure of a whole visit, thumbnail size; empty where no trace was kept. */
export function SmallTrace({ trace }: { readonly trace: ThinTrace | null }) {
  const path = trace === null ? "" : smallTracePath(trace, WIDE, TALL);
  if (path === "") return null;
  return (
    <svg className="small-trace" viewBox={`0 0 ${WIDE} ${TALL}`} width={WIDE} height={TALL} aria-hidden="true">
      <path d={path} />
    </svg>
  );
}
