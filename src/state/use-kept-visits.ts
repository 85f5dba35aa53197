import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { LostPart } from "../../shared/problems/visit-file-problem";
import { readVisitFile, type VisitFile, writeVisitFile } from "../../shared/schemas/visit-file";
import { sayLostPart, sayVisitFileProblem } from "../../shared/wording/visit-file-problem";
import type { StoredVisit } from "../storage/database";
import { choicesOf, toVisitFile } from "../storage/visit-form";
import {
  KEEP_DELETED,
  listVisits,
  loadVisit,
  markDeleted,
  purgeDeleted,
  type SaveOutcome,
  type SpaceUsed,
  saveVisit,
  spaceUsed,
} from "../storage/visit-store";
import { toSiteEntry } from "../views/site-facts/entries";
import type { PickedFile } from "../worker/messages";
import type { Commands } from "./use-visit";
import { type PageState, shownVisit } from "./visit-state";

/** How the visit on the page stands in the browser's store. */
export type Saving = { readonly state: "nothing" } | { readonly state: "saving" } | SaveOutcome;

/** A kept visit without its log: shown as it was written, since it cannot be worked out again. */
export type ShownFile = { readonly name: string; readonly visit: VisitFile; readonly lost: readonly LostPart[] };

export type KeptVisits = {
  readonly visits: readonly StoredVisit[];
  readonly saving: Saving;
  readonly space: SpaceUsed | null;
  /** Id of the visit on the page; null where none is. */
  readonly openId: string | null;
  /** A visit that could only be opened without its log. */
  readonly shown: ShownFile | null;
  /** What went wrong last, in a sentence; null where nothing did. */
  readonly trouble: string | null;
  open(id: string): Promise<void>;
  /** Opens visits out of the text of their files; one stands on the page, several are only kept. */
  take(name: string, text: string, files: readonly PickedFile[], show: boolean): Promise<void>;
  remove(id: string): Promise<void>;
  putBack(id: string): Promise<void>;
  removeForGood(): Promise<void>;
  /** Saves over what another tab saved. */
  saveOver(): Promise<void>;
  /** The visit on the page as it would be saved; null where none is. */
  current(): VisitFile | null;
};

type Identity = { readonly id: string; revision: number };

const SAVE_AFTER_MS = 500;
const LAST_OPEN = "evenhead-visit";

/** Keeps the visit on the page in this browser, and hands kept ones back. */
export function useKeptVisits(state: PageState, commands: Commands): KeptVisits {
  const [visits, setVisits] = useState<readonly StoredVisit[]>([]);
  const [space, setSpace] = useState<SpaceUsed | null>(null);
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const [shown, setShown] = useState<ShownFile | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const ids = useRef(new WeakMap<readonly PickedFile[], Identity>());
  const visit = shownVisit(state.visit);
  // While another log is read the visit before still stands on the page and takes notes.
  const isSettled = state.visit.stage !== "working-out" && !("reworking" in state.visit && state.visit.reworking);

  const refresh = useCallback(async () => {
    setVisits(await listVisits());
    setSpace(await spaceUsed());
  }, []);
  const tell = useOtherTabs(refresh);

  const identityOf = useCallback((files: readonly PickedFile[]): Identity => {
    const known = ids.current.get(files) ?? { id: crypto.randomUUID(), revision: 0 };
    ids.current.set(files, known);
    return known;
  }, []);

  const current = useCallback((): VisitFile | null => {
    if (visit === null) return null;
    const { id } = identityOf(visit.files);
    return toVisitFile({ id, visit, site: state.site, checklist: state.checklist }, Date.now(), null);
  }, [visit, state.site, state.checklist, identityOf]);

  const save = useCallback(
    async (over: boolean) => {
      const form = current();
      if (visit === null || form?.about == null) return;
      const identity = identityOf(visit.files);
      const names = visit.files.map((file) => file.name);
      const { id, title, saved } = form.about;
      const toSave = { id, title, files: names, saved: Date.parse(saved), text: writeVisitFile(form) };
      const outcome = await saveVisit(toSave, visit.files, over ? null : identity.revision);
      if ("revision" in outcome && outcome.state !== "changed-elsewhere") identity.revision = outcome.revision;
      if (outcome.state === "saved" || outcome.state === "saved-without-log") rememberOpen(id);
      setSaving(outcome);
      tell();
      await refresh().catch(() => {});
    },
    [current, visit, identityOf, refresh, tell],
  );

  useEffect(() => {
    if (!isSettled || visit === null) return;
    setSaving({ state: "saving" });
    const timer = setTimeout(() => void save(false), SAVE_AFTER_MS);
    return () => clearTimeout(timer);
  }, [isSettled, visit, save]);
  useUnsavedGuard(saving);

  const actions = useMemo(() => {
    const show = (name: string, kept: VisitFile, lost: readonly LostPart[], files: readonly PickedFile[]) => {
      setTrouble(lost.length === 0 ? null : `${name} is damaged in part. ${lost.map(sayLostPart).join(" ")}`);
      setShown(files.length === 0 ? { name, visit: kept, lost } : null);
      if (files.length === 0) return;
      const checklist = kept.checklist ?? { entries: [], notes: "" };
      commands.openVisit({ files, choices: choicesOf(kept), site: toSiteEntry(kept.site ?? {}), checklist });
    };
    async function open(id: string): Promise<void> {
      const loaded = await loadVisit(id);
      if (loaded === null) return setTrouble("This visit is no longer kept in this browser.");
      const { visit: stored, log } = loaded;
      const read = readVisitFile(stored.text);
      if (read.visit === null) return setTrouble(sayVisitFileProblem(read.problem, stored.title));
      ids.current.set(log, { id, revision: stored.revision });
      show(stored.title, read.visit, read.lost, log);
    }
    async function take(name: string, text: string, files: readonly PickedFile[], isShown: boolean): Promise<void> {
      const read = readVisitFile(text);
      if (read.visit === null) return setTrouble(sayVisitFileProblem(read.problem, name));
      const { about } = read.visit;
      const id = about?.id ?? crypto.randomUUID();
      const kept = {
        id,
        title: about?.title ?? name,
        files: files.map((f) => f.name),
        saved: Date.parse(about?.saved ?? "") || Date.now(),
      };
      const outcome = await saveVisit({ ...kept, text: writeVisitFile({ ...read.visit, log: null }) }, files, null);
      if ("revision" in outcome) ids.current.set(files, { id, revision: outcome.revision });
      await refresh();
      if (isShown) show(name, read.visit, read.lost, files);
    }
    const changed = async (work: Promise<unknown>) => {
      await work;
      tell();
      await refresh();
    };
    return {
      open,
      take,
      remove: (id: string) => changed(markDeleted(id, Date.now())),
      putBack: (id: string) => changed(markDeleted(id, null)),
      removeForGood: () => changed(purgeDeleted(Number.POSITIVE_INFINITY)),
    };
  }, [commands, refresh, tell]);

  useFirstLook(refresh, actions.open, setTrouble);
  const openId = visit === null ? null : identityOf(visit.files).id;
  return { visits, saving, space, openId, shown, trouble, current, saveOver: () => save(true), ...actions };
}

/** Hears when another tab kept or deleted something, and tells the others. */
function useOtherTabs(refresh: () => Promise<void>): () => void {
  const channel = useRef<BroadcastChannel | null>(null);
  useEffect(() => {
    const opened = new BroadcastChannel("evenhead-visits");
    channel.current = opened;
    opened.onmessage = () => void refresh().catch(() => {});
    return () => opened.close();
  }, [refresh]);
  return useCallback(() => channel.current?.postMessage("changed"), []);
}

/** On arrival: old deletions are purged, the list is read, and the visit that stood here before a reload comes back. */
function useFirstLook(refresh: () => Promise<void>, open: (id: string) => Promise<void>, setTrouble: (sentence: string) => void): void {
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
    arrive().catch(() =>
      setTrouble("This browser keeps no visits here (a private window, or storage is switched off). Save visits as files."),
    );
  }, [refresh, open, setTrouble]);
}

/** The browser asks before the page goes while something is not kept. */
function useUnsavedGuard(saving: Saving): void {
  const isAtRisk = saving.state !== "nothing" && saving.state !== "saved";
  useEffect(() => {
    if (!isAtRisk) return;
    const ask = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener("beforeunload", ask);
    return () => window.removeEventListener("beforeunload", ask);
  }, [isAtRisk]);
}

/** Per tab: two tabs may look at two visits. */
function rememberOpen(id: string): void {
  try {
    sessionStorage.setItem(LAST_OPEN, id);
  } catch {
    // Storage refused: a reload then begins with the list.
  }
}

function lastOpen(): string | null {
  try {
    return sessionStorage.getItem(LAST_OPEN);
  } catch {
    return null;
  }
}
