import { useEffect, useState } from "react";
import type { Change, PredictedSpan } from "../../../shared/findings/what-if";
import type { Commands } from "../../state/use-visit";
import type { Predicted } from "../../state/visit-state";
import type { ModelRun } from "../../worker/model-run";

export type FinishedRun = Extract<ModelRun, { state: "run" }>;

export type Predictions = {
  /** The latest run over the whole stretch; null until the first is done. */
  readonly run: FinishedRun | null;
  /** Why there is none. */
  readonly refused: Exclude<ModelRun["state"], "run" | "overtaken"> | "gone" | null;
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
 * a time; the newest change wins: a run that was overtaken is stopped in its course.
 */
export function usePredictions({ commands, changes, short, long, onPredicted }: Order): Predictions {
  const [predictions, set] = useState<Predictions>({ run: null, refused: null, isStale: true });
  useEffect(() => {
    const overtaken = new AbortController();
    const run = (span: PredictedSpan) => commands.runModel({ changes, span, search: false }, overtaken.signal);
    const work = async () => {
      const isSame = short.from === long.from && short.to === long.to;
      if (changes.length > 0 && !isSame) {
        const quick = await run(short);
        if (overtaken.signal.aborted) return;
        if (quick?.state === "run") onPredicted(quick.answer.after);
        await new Promise((resolve) => setTimeout(resolve, REST));
        if (overtaken.signal.aborted) return;
      }
      const whole = await run(long);
      if (overtaken.signal.aborted || whole?.state === "overtaken") return;
      if (whole?.state !== "run") {
        set({ run: null, refused: whole === null ? "gone" : whole.state, isStale: false });
        return;
      }
      set({ run: whole, refused: null, isStale: false });
      onPredicted(changes.length === 0 ? null : whole.answer.after);
    };
    set((before) => ({ ...before, isStale: true }));
    void work();
    return () => overtaken.abort();
  }, [commands, changes, short, long, onPredicted]);
  return predictions;
}
