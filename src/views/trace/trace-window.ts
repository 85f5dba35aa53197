import type { Span } from "../../../shared/findings/span";
import { seconds } from "../../../shared/units/quantity";

/** No closer than this, s. */
const NARROWEST = 0.05;

const span = (from: number, to: number): Span => ({ from: seconds(from), to: seconds(to) });

/** The whole record; a record of one instant still gets a little width. */
export const wholeWindow = (duration: number): Span => span(0, Math.max(duration, NARROWEST));

/** The window pushed back into the record; never wider than it, never narrower than a few samples could be. */
export function fitted(window: Span, duration: number): Span {
  const whole = Math.max(duration, NARROWEST);
  const width = Math.min(whole, Math.max(NARROWEST, window.to - window.from));
  const from = Math.min(Math.max(0, window.from), whole - width);
  return span(from, from + width);
}

/** Zoomed about an instant, which stays where it is on the screen. `factor` below 1 goes closer. */
export function zoomed(window: Span, factor: number, at: number, duration: number): Span {
  const width = Math.min(Math.max(duration, NARROWEST), Math.max(NARROWEST, (window.to - window.from) * factor));
  const share = (at - window.from) / (window.to - window.from);
  return fitted(span(at - share * width, at + (1 - share) * width), duration);
}

export const moved = (window: Span, by: number, duration: number): Span => fitted(span(window.from + by, window.to + by), duration);

/** A window that shows a place with as much again on either side, at least some tens of seconds of surroundings. */
export function around(place: Span, duration: number): Span {
  const length = place.to - place.from;
  const margin = Math.max(length, 15);
  return fitted(span(place.from - margin, place.to + margin), duration);
}

/** Centred on an instant, as wide as before. */
export const centred = (window: Span, at: number, duration: number): Span => moved(window, at - (window.from + window.to) / 2, duration);

/** Between two windows, for a short movement: widths change by ratio, so that a zoom looks even. */
export function between(a: Span, b: Span, share: number): Span {
  const width = (a.to - a.from) ** (1 - share) * (b.to - b.from) ** share;
  const middle = ((a.from + a.to) / 2) * (1 - share) + ((b.from + b.to) / 2) * share;
  return span(middle - width / 2, middle + width / 2);
}
