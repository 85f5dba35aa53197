import { TRACE_BOX } from "../../storage/trace-path";

/** The pressure of a whole visit, thumbnail size; nothing where no trace was kept. */
export function SmallTrace({ path }: { readonly path: string }) {
  const { wide, tall } = TRACE_BOX;
  if (path === "") return null;
  return (
    <svg className="small-trace" viewBox={`0 0 ${wide} ${tall}`} width={wide} height={tall} aria-hidden="true">
      <path d={path} />
    </svg>
  );
}
