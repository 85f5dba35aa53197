import type { Span } from "../../../shared/findings/span";
import { seconds } from "../../../shared/units/quantity";

/** How long the record is and how close one may go, s. */
export type Extent = { readonly duration: number; readonly narrowest: number };

/** Where nothing tells how often the log reads, no closer than this, s. */
const NARROWEST = 0.05;
/** Readings across the closest window: between fewer there is only a straight line to see. */
const FEWEST_READINGS = 8;

/** @param interval between readings of the quickest channel, s; infinite where none has an even one */
export function extentOf(duration: number, interval: number): Extent {
  const narrowest = Number.isFinite(interval) ? Math.max(NARROWEST, FEWEST_READINGS * interval) : NARROWEST;
  return { duration, narrowest: Math.min(narrowest, Math.max(duration, NARROWEST)) };
}

/** Whether a window is as close as the readings allow, and not the whole of a short record. */
export const isClosest = ({ from, to }: Span, { duration, narrowest }: Extent): boolean =>
  to - from <= narrowest * 1.001 && narrowest < duration;

const span = (from: number, to: number): Span => ({ from: seconds(from), to: seconds(to) });

/** The whole record; a record of one instant still gets a little width. */
export const wholeWindow = (duration: number): Span => span(0, Math.max(duration, NARROWEST));

/** The window pushed back into the record; never wider than it, never narrower than a few readings. */
export function fitted(window: Span, { duration, narrowest }: Extent): Span {
  const whole = Math.max(duration, NARROWEST);
  const width = Math.min(whole, Math.max(narrowest, window.to - window.from));
  const from = Math.min(Math.max(0, window.from), whole - width);
  return span(from, from + width);
}

/** Zoomed about an instant, which stays where it is on the screen. `factor` below 1 goes closer. */
export function zoomed(window: Span, factor: number, at: number, extent: Extent): Span {
  const width = Math.min(Math.max(extent.duration, NARROWEST), Math.max(extent.narrowest, (window.to - window.from) * factor));
  const share = (at - window.from) / (window.to - window.from);
  return fitted(span(at - share * width, at + (1 - share) * width), extent);
}

export const moved = (window: Span, by: number, extent: Extent): Span => fitted(span(window.from + by, window.to + by), extent);

/** A window that shows a place with as much again on either side, at least some tens of seconds of surroundings. */
export function around(place: Span, extent: Extent): Span {
  const length = place.to - place.from;
  const margin = Math.max(length, 15);
  return fitted(span(place.from - margin, place.to + margin), extent);
}

/** Centred on an instant, as wide as before. */
export const centred = (window: Span, at: number, extent: Extent): Span => moved(window, at - (window.from + window.to) / 2, extent);

/** Between two windows, for a short movement: widths change by ratio, so that a zoom looks even. */
export function between(a: Span, b: Span, share: number): Span {
  const width = (a.to - a.from) ** (1 - share) * (b.to - b.from) ** share;
  const middle = ((a.from + a.to) / 2) * (1 - share) + ((b.from + b.to) / 2) * share;
  return span(middle - width / 2, middle + width / 2);
}
