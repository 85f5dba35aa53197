import { useEffect, useMemo, useSyncExternalStore } from "react";
import type { Span } from "../../../shared/findings/span";
import { type DrawnChannel, gapsOf } from "../../charts/trace-series";
import type { ReadRecord } from "../../state/visit-state";
import type { Detail } from "../../worker/messages";
import { makeObservable, type Observable } from "./observable";
import type { PredictedChannel } from "./predicted-channel";
import { between, type Extent, extentOf, fitted, isClosest, wholeWindow } from "./trace-window";

/** Two instants that a person measures between; `to` null while only the first is set. */
export type Measuring = { readonly from: number; readonly to: number | null } | null;

export type Hovered = { readonly text: string; readonly x: number; readonly top: number };

/** What all parts of the trace look at together. */
export type TraceModel = {
  readonly duration: number;
  /** How far and how close the window may go. */
  readonly extent: Extent;
  readonly channels: readonly DrawnChannel[];
  readonly window: Observable<Span>;
  readonly cursor: Observable<number | null>;
  readonly detail: Observable<Detail | null>;
  readonly measuring: Observable<Measuring>;
  /** The place of a band under the pointer, said beside it: px from the left of the plot, and from the top of the bands. */
  readonly hovered: Observable<Hovered | null>;
  /** What the model predicts with a change; drawn over the recorded pressure. */
  readonly predicted: Observable<PredictedChannel | null>;
  /** Whether heights follow what is in sight rather than the whole record. */
  readonly fitHeight: Observable<boolean>;
  /** Moves there with a short movement, or at once where motion is declined. */
  moveTo(window: Span): void;
};

type AskDetail = (from: number, to: number) => Promise<Detail | null>;

/** One model a record. */
export function useTraceModel(read: ReadRecord, askDetail: AskDetail): TraceModel {
  const { traces, outline } = read;
  const model = useMemo(() => {
    const duration = outline.duration;
    const window = makeObservable<Span>(wholeWindow(duration));
    const channels = traces.map((trace) => ({ trace, gaps: gapsOf(outline.faults, trace.heading) }));
    const extent = extentOf(duration, finestInterval(channels));
    const made = {
      duration,
      extent,
      channels,
      window,
      cursor: makeObservable<number | null>(null),
      detail: makeObservable<Detail | null>(null),
    };
    const glide = makeGlide(window);
    return {
      ...made,
      measuring: makeObservable<Measuring>(null),
      hovered: makeObservable<Hovered | null>(null),
      predicted: makeObservable<PredictedChannel | null>(null),
      fitHeight: makeObservable(false),
      moveTo: (to: Span) => glide(fitted(to, extent)),
    };
  }, [traces, outline]);
  useEffect(() => fetchDetail(model, askDetail), [model, askDetail]);
  return model;
}

const GLIDE_MS = 180;
const still = () => matchMedia("(prefers-reduced-motion: reduce)").matches;

/** Moves a window there in a short movement; a later call or a hand on the window ends the one before. */
function makeGlide(window: Observable<Span>): (to: Span) => void {
  let latest = 0;
  return (to) => {
    const own = ++latest;
    const from = window.get();
    if (still()) {
      window.set(to);
      return;
    }
    const began = performance.now();
    let last = from;
    const step = (now: number) => {
      if (own !== latest || window.get() !== last) return;
      const share = Math.min(1, Math.max(0, (now - began) / GLIDE_MS));
      last = share === 1 ? to : between(from, to, share);
      window.set(last);
      if (share < 1) requestAnimationFrame(step);
    };
    requestAnimationFrame(step);
  };
}

/** Closer than this many samples across, the samples themselves are drawn. */
const SAMPLES_DRAWN = 16_000;

/** The finest interval among the channels, s. */
export const finestInterval = (channels: readonly DrawnChannel[]): number =>
  channels.reduce((least, { trace }) => Math.min(least, trace.interval ?? Infinity), Infinity);

/** Keeps the samples of the window and a window's width on either side at hand, whenever it is close enough to show them. */
function fetchDetail(model: TraceModel, askDetail: AskDetail): () => void {
  let waiting = false;
  let ended = false;
  const finest = finestInterval(model.channels);
  const look = async () => {
    const { from, to } = model.window.get();
    const have = model.detail.get();
    const width = to - from;
    if (waiting || !(width / finest < SAMPLES_DRAWN)) return;
    if (have !== null && have.from <= from && have.to >= to && have.to - have.from < 12 * width) return;
    waiting = true;
    const detail = await askDetail(Math.max(0, from - width), Math.min(model.duration, to + width));
    waiting = false;
    if (ended || detail === null) return;
    model.detail.set(detail);
    void look();
  };
  const stop = model.window.subscribe(() => void look());
  void look();
  return () => {
    ended = true;
    stop();
  };
}

/** Whether the samples at hand cover a window. */
export const covers = (detail: Detail | null, { from, to }: Span): detail is Detail =>
  detail !== null && detail.from <= from && detail.to >= to;

/** Whether the window is as close as the readings allow. */
export const useIsClosest = (model: TraceModel): boolean =>
  useSyncExternalStore(model.window.subscribe, () => isClosest(model.window.get(), model.extent));

/** Height of the page in sight, px, as it changes. */
export const useViewHeight = (): number =>
  useSyncExternalStore(
    (changed) => {
      addEventListener("resize", changed);
      return () => removeEventListener("resize", changed);
    },
    () => innerHeight,
  );
