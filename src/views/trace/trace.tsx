import type { ReadRecord } from "../../state/visit-state";
import type { PageProps } from "../view-props";

export type TraceProps = PageProps & { readonly read: ReadRecord };

/** Every channel against time, with the bands under it. */
export function Trace({ read }: TraceProps) {
  return (
    <section className="trace" aria-label="Trace">
      {read.traces.map((channel) => channel.heading).join(", ")}
    </section>
  );
}
