import { useState } from "react";
import type { BandKind } from "../../../shared/wording/band";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import { type Band, type BandPlace, neighbour } from "../../charts/bands";
import type { TraceModel } from "./trace-model";

/** Steps from place to place of all bands, or of one; buttons and keys share them. */
export type PlaceSteps = {
  readonly kind: BandKind | "any";
  choose(kind: string): void;
  step(direction: 1 | -1): void;
  /** Said at either end; empty elsewhere. */
  readonly end: string;
};

export function usePlaceSteps(model: TraceModel, bands: readonly Band[], onPlace: (band: Band, place: BandPlace) => void): PlaceSteps {
  const [wanted, setKind] = useState<string>("any");
  const [end, setEnd] = useState("");
  // A band may be gone after other facts were entered.
  const kind = bands.find((band) => band.kind === wanted)?.kind ?? "any";
  return {
    kind,
    end,
    choose: setKind,
    step(direction) {
      const { from, to } = model.window.get();
      const chosen = bands.filter((band) => kind === "any" || band.kind === kind);
      const found = neighbour(chosen, model.cursor.get() ?? (from + to) / 2, direction);
      setEnd(found !== null ? "" : direction === 1 ? TRACE_WORDS.atLast : TRACE_WORDS.atFirst);
      if (found !== null) onPlace(found.band, found.place);
    },
  };
}
