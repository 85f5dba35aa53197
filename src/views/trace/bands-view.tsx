import { type MouseEvent, useCallback } from "react";
import { BAND_WORDS } from "../../../shared/wording/band";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import { BAND_HUES, bandFill, PATTERN_TILE } from "../../charts/band-patterns";
import { type Band, type BandPlace, firstFrom, placeAt } from "../../charts/bands";
import { PLOT_RIGHT } from "../../charts/chart-spec";
import { type Draw, Sketch } from "../../charts/sketch";
import type { Dispatch } from "../../state/visit-reducer";
import type { Selection } from "../../state/visit-state";
import { PlaceNote } from "./place-note";
import type { TraceLayout } from "./trace-layout";
import type { TraceModel } from "./trace-model";

export const LANE_HEIGHT = 19;
const LANE_GAP = 4;
/** How near a click must come to a place, px. */
const REACH = 5;

type BandsProps = {
  readonly bands: readonly Band[];
  readonly model: TraceModel;
  readonly selection: Selection;
  readonly dispatch: Dispatch;
  readonly layout: TraceLayout;
  /** Says what a place is, with its times. */
  readonly say: (band: Band, place: BandPlace) => string;
  /** What was chosen; it stays said until something else is. */
  readonly onChoose: (text: string | null) => void;
};

/** What was going on, a lane a kind, in words and patterns; a touch says what a place is, a click lights its finding. */
export function BandsView({ bands, model, selection, dispatch, layout, say, onChoose }: BandsProps) {
  const { axisWidth, plotWidth } = layout;
  const height = bands.length * LANE_HEIGHT;
  const draw = useCallback<Draw>(
    (ink, colours, ratio) => {
      const fills = bands.map(({ kind }) => ({ wide: bandFill(kind, colours, ratio, ink), narrow: colours[BAND_HUES[kind]] }));
      const redraw = () => drawLanes(ink, bands, fills, model.window.get(), plotWidth, ratio, colours.rule);
      redraw();
      return model.window.subscribe(redraw);
    },
    [bands, model, plotWidth],
  );

  function under(event: MouseEvent): { readonly band: Band; readonly place: BandPlace } | null {
    const box = event.currentTarget.getBoundingClientRect();
    const band = bands[Math.floor((event.clientY - box.top) / LANE_HEIGHT)];
    if (band === undefined) return null;
    const { from, to } = model.window.get();
    const pixel = (to - from) / plotWidth;
    const place = placeAt(band.places, from + (event.clientX - box.left) * pixel, REACH * pixel);
    return place === null ? null : { band, place };
  }

  function explain(event: MouseEvent): void {
    const found = under(event);
    const x = event.clientX - event.currentTarget.getBoundingClientRect().left;
    model.hovered.set(found === null ? null : { text: say(found.band, found.place), x, top: bands.indexOf(found.band) * LANE_HEIGHT });
  }

  function choose(event: MouseEvent): void {
    const found = under(event);
    dispatch({ do: "select", selection: found === null ? { finding: null, span: null } : selected(found.band, found.place) });
    onChoose(found === null ? null : say(found.band, found.place));
  }

  return (
    <div className="bands small" data-roomy={layout.isRoomy}>
      <ul className="band-names" style={{ width: axisWidth }}>
        {bands.map((band) => (
          <li
            key={band.kind}
            style={{ height: LANE_HEIGHT }}
            className={selection.finding !== null && band.finding === selection.finding ? "lit" : ""}
          >
            {BAND_WORDS[band.kind].title}
          </li>
        ))}
      </ul>
      {/* Everything a pointer does here the event buttons and the story do by keyboard. */}
      <div className="band-place" style={{ marginInlineEnd: PLOT_RIGHT }}>
        <Sketch
          className="band-lanes"
          wide={plotWidth}
          tall={height}
          draw={draw}
          role="img"
          aria-label={TRACE_WORDS.bands(bands.map((band) => ({ title: BAND_WORDS[band.kind].title, count: band.places.length })))}
          onMouseMove={explain}
          onMouseLeave={() => model.hovered.set(null)}
          onClick={choose}
        />
        <PlaceNote model={model} plotWidth={plotWidth} />
      </div>
    </div>
  );
}

export const selected = (band: Band, place: BandPlace): Selection => ({ finding: band.finding, span: { from: place.from, to: place.to } });

/** A place narrower than its pattern is filled through, or it might fall between the strokes. */
type Fill = { readonly wide: string | CanvasPattern; readonly narrow: string };

function drawLanes(
  ink: CanvasRenderingContext2D,
  bands: readonly Band[],
  fills: readonly Fill[],
  window: { readonly from: number; readonly to: number },
  width: number,
  ratio: number,
  rule: string,
): void {
  const perSecond = (width * ratio) / (window.to - window.from);
  ink.clearRect(0, 0, ink.canvas.width, ink.canvas.height);
  bands.forEach(({ places }, lane) => {
    const top = (lane * LANE_HEIGHT + LANE_GAP / 2) * ratio;
    const tall = (LANE_HEIGHT - LANE_GAP) * ratio;
    ink.fillStyle = rule;
    ink.fillRect(0, top + tall, ink.canvas.width, 1);
    let drawnTo = -1;
    for (let i = startOf(places, window.from); i < places.length && places[i].from <= window.to; i++) {
      const left = Math.max(Math.round((places[i].from - window.from) * perSecond), drawnTo);
      const right = Math.round((places[i].to - window.from) * perSecond);
      // A place narrower than a pixel still shows; many of them in one pixel are drawn once.
      const end = Math.max(right, left === drawnTo ? 0 : left + Math.ceil(ratio));
      if (end <= left) continue;
      ink.fillStyle = end - left < PATTERN_TILE * ratio ? fills[lane].narrow : fills[lane].wide;
      ink.fillRect(left, top, end - left, tall);
      drawnTo = end;
    }
  });
}

/** Looks back over places that began earlier and may reach into the window. */
const startOf = (places: readonly BandPlace[], from: number): number => {
  let i = firstFrom(places, from);
  for (let back = 0; back < 64 && i > 0; back++) i--;
  return i;
};
