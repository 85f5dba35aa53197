import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { comparedVisits } from "../../analysis/comparison/before-and-after";
import type { Analysis } from "../../shared/findings/analysis";
import type { ComparedVisits, NamedMeasures, VisitMeasures } from "../../shared/findings/comparison";
import type { VisitFile } from "../../shared/schemas/visit-file";
import { sayVersionDifference } from "../../shared/wording/version-difference";
import { VISITS_WORDS } from "../../shared/wording/visits";
import type { StoredVisit } from "../storage/database";
import { toVisitFile } from "../storage/visit-form";
import { KEEP_DELETED, listVisits, markDeleted, purgeDeleted, type SpaceUsed, spaceUsed } from "../storage/visit-store";
import type { PickedFile } from "../worker/messages";
import { lastOpen, rememberOpen } from "./last-open";
import { type Saving, useAutosave } from "./use-autosave";
import { type ShownFile, type TakenIn, useOpening } from "./use-opening";
import type { Commands } from "./use-visit";
import { makeIdentities } from "./visit-identities";
import { type PageState, shownVisit, type Visit } from "./visit-state";

export type KeptVisits = {
  readonly visits: readonly StoredVisit[];
  readonly saving: Saving;
  readonly space: SpaceUsed | null;
  /** Id of the visit on the page; null where none is. */
  readonly openId: string | null;
  /** A visit that could only be opened without its log. */
  readonly shown: ShownFile | null;
  /** What the visit on the page showed when another version of this program saved it, against now; empty where nothing is to be said. */
  readonly difference: readonly string[];
  /** What went wrong last, in a sentence; null where nothing did. */
  readonly trouble: string | null;
  open(id: string): Promise<void>;
  /** Keeps a visit out of the text of its file; shown on the page where asked. */
  take(name: string, text: string, files: readonly PickedFile[], show: boolean): Promise<TakenIn>;
  remove(id: string): Promise<void>;
  putBack(id: string): Promise<void>;
  removeForGood(): Promise<void>;
  saveOver(): Promise<void>;
  /** The visit on the page as it would be saved; null where none is. */
  readonly current: VisitFile | null;
  /** The visit on the page against the earlier one that was chosen; null while none is, or while this one is worked out. */
  readonly compared: ComparedVisits | null;
  /** An earlier visit was chosen and the comparison is being worked out, for the first time or with other facts. */
  readonly isComparing: boolean;
  /** Reads the list again. */
  refresh(): Promise<void>;
};

/** Keeps the visit on the page in this browser, and hands kept ones back. */
export function useKeptVisits(state: PageState, commands: Commands): KeptVisits {
  const [ids] = useState(() => makeIdentities(() => crypto.randomUUID()));
  const { visits, space, refresh, changed } = useVisitList();
  const opening = useOpening(ids, commands, changed);
  const visit = shownVisit(state.visit);
  const { site, checklist, before } = state;
  // While another log is read, the visit before still stands on the page and takes notes.
  const isSettled = state.visit.stage !== "working-out" && !("reworking" in state.visit && state.visit.reworking);
  const measured = useMeasures(visit?.analysis ?? null, commands);
  const measures = measured !== null && measured.analysis === visit?.analysis ? measured.measures : null;
  const compared = useCompared(visit, measures, before);
  const current = useMemo(
    () => (visit === null ? null : toVisitFile({ id: ids.of(visit.files).id, visit, site, checklist, measures, before }, Date.now(), null)),
    [ids, visit, site, checklist, measures, before],
  );
  const onSaved = useCallback(
    (id: string) => {
      rememberOpen(id);
      changed();
    },
    [changed],
  );
  const isWorkedOut = isSettled && measured?.analysis === visit?.analysis;
  const { saving, saveOver } = useAutosave(ids, visit?.files ?? null, isWorkedOut ? current : null, onSaved);
  useFirstLook(refresh, opening.open, opening.say);
  const refused = () => opening.say(VISITS_WORDS.listRefused);
  return {
    visits,
    saving,
    space,
    openId: visit === null ? null : ids.of(visit.files).id,
    shown: opening.shown,
    difference:
      visit !== null && opening.saidThen?.files === visit.files ? sayVersionDifference(opening.saidThen.findings, visit.document) : [],
    trouble: opening.trouble,
    current,
    compared,
    isComparing: before !== null && !isWorkedOut,
    refresh,
    saveOver,
    open: opening.open,
    take: opening.take,
    remove: (id) => markDeleted(id, Date.now()).then(changed, refused),
    putBack: (id) => markDeleted(id, null).then(changed, refused),
    removeForGood: () => purgeDeleted(Number.POSITIVE_INFINITY).then(changed, refused),
  };
}

type Measured = { readonly analysis: Analysis; readonly measures: VisitMeasures | null };

/** What a comparison needs of the visit on the page, asked for once its findings stand; null while it is being worked out. */
function useMeasures(analysis: Analysis | null, commands: Commands): Measured | null {
  const [measured, setMeasured] = useState<Measured | null>(null);
  useEffect(() => {
    if (analysis === null) return;
    let isWanted = true;
    const take = (measures: VisitMeasures | null) => isWanted && setMeasured({ analysis, measures });
    // A visit is kept without them rather than not at all.
    commands.measures().then(take, () => take(null));
    return () => {
      isWanted = false;
    };
  }, [analysis, commands]);
  return measured;
}

/** Before and after of the visit on the page; worked out again whenever its own measures change, so that it never speaks of older facts. */
function useCompared(visit: Visit | null, measures: VisitMeasures | null, before: NamedMeasures | null): ComparedVisits | null {
  const name = visit?.files.map((file) => file.name).join(", ") ?? "";
  return useMemo(
    () => (measures === null || before === null ? null : comparedVisits(before, { name, measures })),
    [name, measures, before],
  );
}

/** The list of kept visits, the same in every tab. */
function useVisitList() {
  const [visits, setVisits] = useState<readonly StoredVisit[]>([]);
  const [space, setSpace] = useState<SpaceUsed | null>(null);
  const channel = useRef<BroadcastChannel | null>(null);
  const refresh = useCallback(async () => {
    setVisits(await listVisits());
    setSpace(await spaceUsed());
  }, []);
  const changed = useCallback(() => {
    channel.current?.postMessage("changed");
    // Where nothing can be read, the saving itself says so.
    refresh().catch(() => {});
  }, [refresh]);
  useEffect(() => {
    const opened = new BroadcastChannel("evenhead-visits");
    channel.current = opened;
    opened.onmessage = () => void refresh().catch(() => {});
    return () => opened.close();
  }, [refresh]);
  return { visits, space, refresh, changed };
}

/** On arrival: old deletions are purged, the list is read, and the visit that stood here before a reload comes back. */
function useFirstLook(refresh: () => Promise<void>, open: (id: string) => Promise<void>, say: (sentence: string) => void): void {
  const done = useRef(false);
  useEffect(() => {
    if (done.current) return;
    done.current = true;
    const arrive = async () => {
      await purgeDeleted(Date.now() - KEEP_DELETED);
      await refresh();
      const last = lastOpen();
      if (last !== null) await open(last);
    };
    arrive().catch(() => say(VISITS_WORDS.keepsNothing));
  }, [refresh, open, say]);
}
