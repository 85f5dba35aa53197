import type { Analysis } from "../../shared/findings/analysis";
import { type FindingKind, findingOf } from "../../shared/findings/finding";
import { isCannotTell } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import { BAND_KINDS, type BandKind } from "../../shared/wording/band";
import type { FaultNote } from "../../shared/wording/fault-note";

/** A place of a band; `note` says more than its times do. */
export type BandPlace = Span & { readonly note: FaultNote | null };
export type Band = {
  readonly kind: BandKind;
  /** The finding that this band stands for; null for faults of the log. */
  readonly finding: FindingKind | null;
  /** In order of their beginning. */
  readonly places: readonly BandPlace[];
};

const FINDING_OF: { readonly [K in BandKind]: FindingKind | null } = {
  "over-marked-pressure": "over-marked-pressure",
  running: "cycling",
  "short-cycles": "short-cycles",
  draw: "demand",
  steady: null,
  drift: "drift",
  oscillation: "oscillation",
  "leak-down": "leak-down",
  "log-fault": null,
};

/** The bands that have something to show, in the order of the page. */
export function bandsOf(analysis: Analysis): readonly Band[] {
  return BAND_KINDS.flatMap((kind) => {
    const places = placesOf(kind, analysis);
    if (places.length === 0) return [];
    return [{ kind, finding: FINDING_OF[kind], places: [...places].sort((a, b) => a.from - b.from) }];
  });
}

const plain = (spans: readonly Span[]): readonly BandPlace[] => spans.map(({ from, to }) => ({ from, to, note: null }));

function placesOf(kind: BandKind, { segments, outcomes, faults }: Analysis): readonly BandPlace[] {
  switch (kind) {
    case "running":
      return isCannotTell(segments.pump) ? [] : plain(segments.pump.runs);
    case "draw":
      return isCannotTell(segments.draw) ? [] : plain(segments.draw.draws);
    case "steady":
      return isCannotTell(segments.steady) ? [] : plain(segments.steady);
    case "drift":
      return plain(findingOf(outcomes, "drift")?.windows.filter(({ over }) => over) ?? []);
    case "oscillation":
      return plain(findingOf(outcomes, "oscillation")?.episodes ?? []);
    case "log-fault":
      return faults.map(({ from, to, note }) => ({ from, to, note }));
    default:
      return plain(findingOf(outcomes, kind)?.places ?? []);
  }
}

/** Index of the first place that begins at or after t. */
export function firstFrom(places: readonly Span[], t: number): number {
  let low = 0;
  let high = places.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (places[middle].from < t) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The place at an instant, or the nearest within `reach` seconds; null where there is none. Looks back over places that overlap. */
export function placeAt(places: readonly BandPlace[], t: number, reach: number): BandPlace | null {
  const distance = ({ from, to }: Span) => Math.max(0, from - t, t - to);
  const end = firstFrom(places, t + reach);
  let best: BandPlace | null = null;
  for (let i = end - 1; i >= 0 && i >= end - 64; i--) {
    if (distance(places[i]) <= reach && (best === null || distance(places[i]) < distance(best))) best = places[i];
  }
  return best;
}

/** The next place after an instant or the one before it, over the bands given; null at the end. */
export function neighbour(bands: readonly Band[], t: number, direction: 1 | -1): { readonly band: Band; readonly place: BandPlace } | null {
  let found: { band: Band; place: BandPlace } | null = null;
  for (const band of bands) {
    const after = firstFrom(band.places, direction === 1 ? t + 1e-6 : t - 1e-6);
    const place = band.places[direction === 1 ? after : after - 1];
    if (place !== undefined && (found === null || (place.from - found.place.from) * direction < 0)) found = { band, place };
  }
  return found;
}
