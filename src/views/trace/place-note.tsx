import { useObserved } from "./observable";
import type { TraceModel } from "./trace-model";

/** What the pointer is over, beside it and above its lane, so that the place itself stays in sight. Its words are also said at the foot once it is chosen. */
export function PlaceNote({ model, plotWidth }: { readonly model: TraceModel; readonly plotWidth: number }) {
  const hovered = useObserved(model.hovered);
  if (hovered === null) return null;
  const { text, x, top } = hovered;
  return (
    <p
      className="place-note"
      aria-hidden="true"
      style={{ top, transform: `translate(clamp(0px, ${x}px - 50%, ${plotWidth}px - 100%), -100%)` }}
    >
      {text}
    </p>
  );
}
