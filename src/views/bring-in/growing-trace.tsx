import { useCallback } from "react";
import type { SketchedColumn } from "../../../analysis/import/body/reading-sketch";
import type { ChannelQuantity } from "../../../shared/record/channel-role";
import { hueOf } from "../../charts/palette";
import { type Draw, Sketch } from "../../charts/sketch";
import { useWidth } from "../use-width";

const TALL = 56;
/** More strips than these tell nothing that the trace itself will not tell in a moment. */
const MOST = 4;
/** What is looked at first at a pump comes first. */
const FIRST: readonly ChannelQuantity[] = ["gaugePressure", "absolutePressure", "flow"];

/** The columns of the file as far as it is read: a strip each, over the whole length of the file, so that it fills from the left. */
export function GrowingTrace({ sketch }: { readonly sketch: readonly SketchedColumn[] }) {
  const shown = sketch
    .map((column, at) => ({ column, order: FIRST.includes(column.quantity) ? FIRST.indexOf(column.quantity) : FIRST.length + at }))
    .sort((a, b) => a.order - b.order)
    .slice(0, MOST);
  const [width, widthOf] = useWidth();
  return (
    <div ref={widthOf} className="growing-trace" aria-hidden="true">
      {shown.map(({ column }) => (
        <Strip key={column.heading} column={column} wide={width} />
      ))}
    </div>
  );
}

function Strip({ column, wide }: { readonly column: SketchedColumn; readonly wide: number }) {
  const draw = useCallback<Draw>(
    (ink, colours, ratio) => {
      const { low, high } = rangeOf(column);
      const height = Math.round(TALL * ratio);
      const perUnit = high > low ? (height - 2) / (high - low) : 0;
      const perPart = (wide * ratio) / column.min.length;
      ink.clearRect(0, 0, wide * ratio, height);
      ink.fillStyle = colours[hueOf(column.quantity)];
      for (let p = 0; p < column.min.length; p++) {
        if (Number.isNaN(column.min[p])) continue;
        const top = height - 1 - (column.max[p] - low) * perUnit;
        const bottom = height - 1 - (column.min[p] - low) * perUnit;
        ink.fillRect(p * perPart, top, Math.max(1, perPart), Math.max(1, bottom - top));
      }
      return undefined;
    },
    [column, wide],
  );
  return (
    <p>
      <bdi>{column.heading}</bdi>
      <Sketch wide={wide} tall={TALL} draw={draw} />
    </p>
  );
}

function rangeOf({ min, max }: SketchedColumn): { low: number; high: number } {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let p = 0; p < min.length; p++) {
    if (min[p] < low) low = min[p];
    if (max[p] > high) high = max[p];
  }
  return { low, high };
}
