import { useObserved } from "./observable";
import type { TraceModel } from "./trace-model";

type CursorProps = { readonly model: TraceModel; readonly axisWidth: number; readonly plotWidth: number };

/** The reading line, and the two lines of a measurement. */
export function CursorLines({ model, axisWidth, plotWidth }: CursorProps) {
  const window = useObserved(model.window);
  const cursor = useObserved(model.cursor);
  const measuring = useObserved(model.measuring);
  const at = (t: number | null | undefined, className: string) => {
    if (t === null || t === undefined || t < window.from || t > window.to) return null;
    const x = axisWidth + ((t - window.from) / (window.to - window.from)) * plotWidth;
    return <div key={className} className={className} style={{ transform: `translateX(${x}px)` }} aria-hidden="true" />;
  };
  return [at(cursor, "cursor-line"), at(measuring?.from, "measure-line first"), at(measuring?.to, "measure-line second")];
}
