import { useCallback, useMemo, useRef } from "react";
import { LOOKS_WORDS, lookReading, lookTitle, sayLook } from "../../../shared/wording/closer-look";
import { ChartFrame } from "../../charts/chart-frame";
import { AXIS_WIDTH, PLOT_RIGHT } from "../../charts/chart-spec";
import type { Look } from "../../charts/looks/look";
import { lookChart, type TicksOf } from "../../charts/looks/look-chart";
import { lookCsv } from "../../charts/looks/look-csv";
import { labelsIn, timeTicks } from "../../charts/time-axis";
import { saveAsFile } from "../../parts/save-as-file";
import type { Preferences } from "../../state/preferences";
import type { Visit } from "../../state/visit-state";
import { LineSample } from "../trace/line-sample";
import { useWidth } from "../use-width";
import { HourByDay } from "./hour-by-day";
import { savePicture } from "./save-picture";

type LookViewProps = { readonly look: Look; readonly visit: Visit; readonly preferences: Preferences };

const MOST_TICKS = 8;
/** Instants that fit under a picture, the first of which may carry its day; the most while the width is not measured yet. */
const ticksIn = (width: number, letters: number): number =>
  width === 0 ? MOST_TICKS : Math.min(MOST_TICKS, labelsIn((width - AXIS_WIDTH - PLOT_RIGHT) / 1.25, letters));

/** One picture: how to read it, the picture, what it shows in a sentence, and a way to take it along. */
export function LookView({ look, visit, preferences }: LookViewProps) {
  const figure = useRef<HTMLElement>(null);
  const { units, clock: shownClock } = preferences;
  const { clock } = visit.outline;
  const [width, widthOf] = useWidth();
  const ticksOf = useCallback<TicksOf>(
    (window) => timeTicks(window, clock, shownClock === "elapsed", (letters) => ticksIn(width, letters), units.locale),
    [clock, shownClock, units, width],
  );
  const chart = useMemo(() => (look.state === "shown" ? lookChart(look, units, ticksOf) : null), [look, units, ticksOf]);
  if (look.state !== "shown" || chart === null) {
    return <p className="soft">{LOOKS_WORDS.nothing}</p>;
  }
  const title = lookTitle(look.look);
  const said = sayLook(look.look, look.numbers, units);
  return (
    <figure ref={figure} className="look">
      <figcaption>
        <p className="soft small">{lookReading(look.look)}</p>
      </figcaption>
      <div ref={widthOf}>
        <ChartFrame spec={chart.spec} data={chart.data} height={260} label={`${title}. ${said}`} />
      </div>
      {chart.spec.lines.length > 1 && (
        <p className="look-lines small">
          {chart.spec.lines.map((line) => (
            <span key={line.label}>
              <LineSample hue={line.hue} dash={line.dash} points={line.draw === "points"} /> {line.label}
            </span>
          ))}
        </p>
      )}
      <p>{said}</p>
      {look.look === "starts-by-hour" && <HourByDay visit={visit} units={units} />}
      <p className="look-export small">
        <button type="button" onClick={() => figure.current !== null && savePicture(figure.current, title)}>
          {LOOKS_WORDS.savePicture}
        </button>
        <button type="button" onClick={() => saveAsFile(`${title}.csv`, "text/csv", lookCsv(chart))}>
          {LOOKS_WORDS.saveNumbers}
        </button>
      </p>
    </figure>
  );
}
