import type { ComparedVisits, PressureProfile } from "../../../shared/findings/comparison";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { COMPARISON_WORDS } from "../../../shared/wording/comparison";
import { OVERLAY, overlayGeometry } from "../../charts/overlay-geometry";

type Props = { readonly compared: ComparedVisits; readonly units: UnitChoice };
const SIDES = ["before", "after"] as const;

/** Days and cycles of the two visits over one another, as far as both have them. */
export function Overlays({ compared: { days, cycles }, units }: Props) {
  return (
    <>
      {days !== null && <Overlay title={COMPARISON_WORDS.days} pair={days} kind="day" units={units} />}
      {cycles !== null && <Overlay title={COMPARISON_WORDS.cycles} pair={cycles} kind="cycle" units={units} />}
    </>
  );
}

type OverlayProps = {
  readonly title: string;
  readonly pair: readonly PressureProfile[];
  readonly kind: "day" | "cycle";
  readonly units: UnitChoice;
};

function Overlay({ title, pair, kind, units }: OverlayProps) {
  const { unit, visits, xTicks, yTicks } = overlayGeometry(pair, kind, units);
  const { width, height, left, right, top, bottom } = OVERLAY;
  const floor = height - bottom;
  const counted = COMPARISON_WORDS.counted(pair[0].count, pair[1].count);
  return (
    <figure className="overlay">
      <figcaption>
        <h3>{title}</h3>
        {COMPARISON_WORDS.legend} {counted}.
      </figcaption>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={COMPARISON_WORDS.pictureOf(title, counted)}>
        <text x={left} y={top - 6}>
          {COMPARISON_WORDS.pressure(unit)}
        </text>
        {yTicks.map(({ y, label }) => (
          <g key={y}>
            <line className="overlay-grid" x1={left} x2={width - right} y1={y} y2={y} />
            <text x={left - 6} y={y + 4} textAnchor="end">
              {label}
            </text>
          </g>
        ))}
        {visits.map(({ spread }, i) => (
          <path key={SIDES[i]} className={`overlay-spread ${SIDES[i]}`} d={spread} />
        ))}
        {visits.map(({ line }, i) => (
          <path key={SIDES[i]} className={`overlay-line ${SIDES[i]}`} d={line} />
        ))}
        {xTicks.map(({ x, label }) => (
          <g key={x}>
            <line className="overlay-grid" x1={x} x2={x} y1={floor} y2={floor + 4} />
            <text x={x} y={floor + 15} textAnchor={x > width - 30 ? "end" : "middle"}>
              {label}
            </text>
          </g>
        ))}
        <text x={(left + width) / 2} y={height - 4} textAnchor="middle">
          {kind === "day" ? COMPARISON_WORDS.ofDay : COMPARISON_WORDS.sinceStart}
        </text>
      </svg>
    </figure>
  );
}
