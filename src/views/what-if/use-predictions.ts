import { useEffect, useRef, useState } from "react";
import type { Change, PredictedSpan } from "../../../shared/findings/what-if";
import type { Commands } from "../../state/use-visit";
import type { Predicted } from "../../state/visit-state";
import type { ModelRun } from "../../worker/model-run";

export type FinishedRun = Extract<ModelRun, { state: "run" }>;

export type Predictions = {
  /** The latest run over the whole stretch; null until the first is done. */
  readonly run: FinishedRun | null;
  /** Why there is none. */
  readonly refused: Exclude<ModelRun["state"], "run"> | "gone" | null;
  /** Its numbers belong to what was set before. */
  readonly isStale: boolean;
};

type Order = {
  readonly commands: Pick<Commands, "runModel">;
  readonly changes: readonly Change[];
  /** The short stretch that is run at once while something is moved, and the long one that gives the numbers once it rests. */
  readonly short: PredictedSpan;
  readonly long: PredictedSpan;
  readonly onPredicted: (predicted: Predicted | null) => void;
};

/** How long a slider must rest before the long stretch is run, ms. */
const REST = 180;

/**
 * Runs the model whenever something is changed: the short stretch at once, for the picture, then the long one, for the numbers. One run at
 * a time; what was overtaken meanwhile is not begun.
 */
export function usePredictions({ commands, changes, short, long, onPredicted }: Order): Predictions {
  const [predictions, set] = useState<Predictions>({ run: null, refused: null, isStale: true });
  const queue = useRef<Promise<void>>(Promise.resolve());
  useEffect(() => {
    let overtaken = false;
    const run = (span: PredictedSpan) => commands.runModel({ changes, span, search: false });
    const work = async () => {
      if (overtaken) return;
      const isSame = short.from === long.from && short.to === long.to;
      if (changes.length > 0 && !isSame) {
        const quick = await run(short);
        if (overtaken) return;
        if (quick?.state === "run") onPredicted(quick.answer.after);
        await new Promise((resolve) => setTimeout(resolve, REST));
        if (overtaken) return;
      }
      const whole = await run(long);
      if (overtaken) return;
      if (whole?.state !== "run") {
        set({ run: null, refused: whole === null ? "gone" : whole.state, isStale: false });
        return;
      }
      set({ run: whole, refused: null, isStale: false });
      onPredicted(changes.length === 0 ? null : whole.answer.after);
    };
    set((before) => ({ ...before, isStale: true }));
    queue.current = queue.current.then(work);
    return () => {
      overtaken = true;
    };
  }, [commands, changes, short, long, onPredicted]);
  return predictions;
}
