import { lazy, memo, Suspense } from "react";
import { BESIDE_TRACE } from "../../shared/wording/page";
import { type PageState, type ReadRecord, shownVisit } from "../state/visit-state";
import { CorrectionOffer } from "./bring-in/correction-offer";
import { OpenQuestions } from "./bring-in/open-questions";
import { Causes } from "./causes/causes";
import { CloserLooks } from "./closer-looks/closer-looks";
import { Findings } from "./findings/findings";
import { StoryToCome } from "./findings/story-to-come";
import { InShort } from "./in-short/in-short";
import { NextVisit } from "./next-visit/next-visit";
import { ReworkingNote } from "./reworking-note";
import { SampleGuide } from "./sample-guide";
import { CarriedFacts } from "./site-facts/carried-facts";
import { TakeAlong } from "./take-along";
import { Trace } from "./trace/trace";
import { usePaper } from "./use-paper";
import type { PageProps, StoryProps } from "./view-props";
import { VersionNotice } from "./visits/version-notice";

const Panels = lazy(() => import("./panels"));

/** A record on the page: its trace, and its story as soon as it is worked out. Loaded when there is something to show. */
export default function VisitPage(props: PageProps & { readonly read: ReadRecord }) {
  usePaper();
  const visit = shownVisit(props.state.visit);
  const { sheet } = props.state;
  const isBeside = sheet !== null && BESIDE_TRACE.includes(sheet);
  return (
    <>
      <div className="record-side">
        <Trace {...props} />
        {visit !== null && <CloserLooks {...props} visit={visit} />}
      </div>
      {visit === null && !isBeside && <StoryToCome {...props} />}
      {visit !== null && (
        <article className="story" hidden={isBeside}>
          <ReworkingNote {...props} />
          <VersionNotice {...props} />
          <CorrectionOffer {...props} />
          <CarriedFacts {...props} />
          <OpenQuestions {...props} visit={visit} />
          <InShort {...props} visit={visit} />
          <SampleGuide {...props} visit={visit} />
          <Findings {...props} visit={visit} />
          <AfterFindings {...props} visit={visit} />
        </article>
      )}
      <Suspense>{isBeside && <Panels {...props} sheet={sheet} />}</Suspense>
    </>
  );
}

/** Nothing in these is lit from the trace: choosing a finding leaves them as they are drawn, or the page would answer late. */
const AfterFindings = memo(
  (props: StoryProps) => (
    <>
      <Causes {...props} />
      <NextVisit {...props} />
      <TakeAlong {...props} />
    </>
  ),
  (before, now) =>
    before.visit === now.visit &&
    before.preferences === now.preferences &&
    before.commands === now.commands &&
    isSameUnlit(before.state, now.state),
);

const LIT: readonly string[] = ["selection", "focus"] satisfies readonly (keyof PageState)[];

const isSameUnlit = (before: PageState, now: PageState): boolean =>
  Object.entries(now).every(([name, value]) => LIT.includes(name) || Object.is(value, before[name as keyof PageState]));
