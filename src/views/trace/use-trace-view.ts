import { useMemo } from "react";
import type { Analysis } from "../../../shared/findings/analysis";
import { findingOf } from "../../../shared/findings/finding";
import { isCannotTell } from "../../../shared/findings/segment";
import type { Span } from "../../../shared/findings/span";
import { NO_SITE_FACTS } from "../../../shared/site/read-site-facts";
import { formatQuantity, scaleOf } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import { type Band, bandsOf } from "../../charts/bands";
import type { ChartMark } from "../../charts/chart-spec";
import { type Strip, stripsOf } from "../../charts/strips";
import { pressureMarks } from "../../charts/trace-marks";
import { type PageState, type ReadRecord, shownVisit } from "../../state/visit-state";

/** What stands on the trace: worked out of the record, the findings and what is selected. */
export type TraceView = {
  readonly strips: readonly Strip[];
  readonly bands: readonly Band[];
  /** What is said of cycles where no run is known; null while that is not worked out. */
  readonly noCycles: string | null;
  /** Lines on the pressure strip. */
  readonly marks: readonly ChartMark[];
  /** Places of the finding that is lit up. */
  readonly lit: readonly Span[];
};

/** A pump that is known to have rested made no cycles; of one whose state is not known nobody can say. */
const sayNoCycles = ({ segments }: Analysis): string => (isCannotTell(segments.pump) ? TRACE_WORDS.cyclesNotKnown : TRACE_WORDS.cycles(0));

const NO_SPANS: readonly Span[] = [];
const NO_BANDS: readonly Band[] = [];

export function useTraceView(read: ReadRecord, state: PageState, units: UnitChoice): TraceView {
  const { traces } = read;
  const analysis = shownVisit(state.visit)?.analysis ?? null;
  const { finding } = state.selection;
  const strips = useMemo(() => stripsOf(traces), [traces]);
  const bands = useMemo(() => (analysis === null ? NO_BANDS : bandsOf(analysis)), [analysis]);
  const marks = useMemo(() => {
    const { toShown } = scaleOf("gaugePressure", units);
    return pressureMarks(analysis?.site ?? NO_SITE_FACTS, analysis, toShown, (si) => formatQuantity(si, "gaugePressure", units));
  }, [analysis, units]);
  const lit = useMemo(
    () => (finding === null || analysis === null ? NO_SPANS : (findingOf(analysis.outcomes, finding)?.places ?? NO_SPANS)),
    [finding, analysis],
  );
  return { strips, bands, noCycles: analysis === null ? null : sayNoCycles(analysis), marks, lit };
}
