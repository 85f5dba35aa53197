import { useMemo, useState } from "react";
import type { LostPart } from "../../shared/problems/visit-file-problem";
import { readVisitFile, type VisitFile, writeVisitFile } from "../../shared/schemas/visit-file";
import type { KeptFindings } from "../../shared/schemas/visit-parts";
import { saySaving } from "../../shared/wording/saving";
import { sayLostPart, sayVisitFileProblem } from "../../shared/wording/visit-file-problem";
import { VISITS_WORDS } from "../../shared/wording/visits";
import { digestOfVisit } from "../storage/visit-digest";
import { choicesOf } from "../storage/visit-form";
import { loadVisit, saveVisit } from "../storage/visit-store";
import { toSiteEntry } from "../views/site-facts/entries";
import type { PickedFile } from "../worker/messages";
import { contentOf } from "./use-autosave";
import type { Commands } from "./use-visit";
import type { VisitIdentities } from "./visit-identities";

/** A kept visit without its log: shown as it was written, since it cannot be worked out again. */
export type ShownFile = { readonly name: string; readonly visit: VisitFile; readonly lost: readonly LostPart[] };

/** The findings that a kept visit was saved with, beside the files it was opened with. */
export type SaidThen = { readonly files: readonly PickedFile[]; readonly findings: KeptFindings };

/** Puts kept visits and visit files on the page, and says what went wrong with them. */
export function useOpening(ids: VisitIdentities, commands: Commands, changed: () => void) {
  const [shown, setShown] = useState<ShownFile | null>(null);
  const [saidThen, setSaidThen] = useState<SaidThen | null>(null);
  const [trouble, say] = useState<string | null>(null);
  const actions = useMemo(() => {
    const show = (name: string, visit: VisitFile, lost: readonly LostPart[], files: readonly PickedFile[]) => {
      say(lost.length === 0 ? null : VISITS_WORDS.damagedInPart(name, lost.map(sayLostPart)));
      setShown(files.length === 0 ? { name, visit, lost } : null);
      setSaidThen(visit.findings === null ? null : { files, findings: visit.findings });
      if (files.length === 0) return;
      const checklist = visit.checklist ?? { entries: [], notes: "" };
      const { before } = visit;
      commands.openVisit({ files, choices: choicesOf(visit), site: toSiteEntry(visit.site ?? {}), checklist, before });
    };

    async function open(id: string): Promise<void> {
      const loaded = await loadVisit(id).catch(() => null);
      if (loaded === null) return say(VISITS_WORDS.notKept);
      const { visit: stored, text, log } = loaded;
      const read = readVisitFile(text);
      if (read.visit === null) return say(sayVisitFileProblem(read.problem, stored.title));
      ids.note(log, { id, revision: stored.revision, content: read.lost.length === 0 ? contentOf(read.visit) : null });
      show(stored.title, read.visit, read.lost, log);
    }

    async function take(name: string, text: string, files: readonly PickedFile[], isShown: boolean): Promise<TakenIn> {
      const read = readVisitFile(text);
      if (read.visit === null) return { isKept: false, said: sayVisitFileProblem(read.problem, name) };
      const visit = await asNew(read.visit, name);
      const { id, title, saved } = visit.about;
      const toSave = {
        id,
        title,
        files: files.map((file) => file.name),
        saved: Date.parse(saved),
        digest: digestOfVisit(visit),
        text: writeVisitFile({ ...visit, log: null }),
      };
      const outcome = await saveVisit(toSave, files, null);
      if ("revision" in outcome) ids.note(files, { id, revision: outcome.revision, content: contentOf(visit) });
      changed();
      if (isShown) show(name, visit, read.lost, files);
      const isWhole = outcome.state === "saved";
      const lost = read.lost.length === 0 ? "" : VISITS_WORDS.damagedInPart(name, read.lost.map(sayLostPart));
      const said = [isWhole ? "" : `${title}: ${saySaving(outcome.state)}`, isShown ? "" : lost].filter((sentence) => sentence !== "");
      return { isKept: isWhole || outcome.state === "saved-without-log", said: said.length === 0 ? null : said.join(" ") };
    }
    return { open, take };
  }, [ids, commands, changed]);
  return { shown, saidThen, trouble, say, ...actions };
}

/** Whether a visit out of a file is kept now, and what must be said of it. */
export type TakenIn = { readonly isKept: boolean; readonly said: string | null };

type NamedVisit = VisitFile & { readonly about: NonNullable<VisitFile["about"]> };

/** A visit out of a file never writes over another state of the same visit that is kept here: then it becomes a visit of its own. */
async function asNew(visit: VisitFile, name: string): Promise<NamedVisit> {
  const about = visit.about ?? { id: crypto.randomUUID(), title: name, saved: new Date().toISOString(), program: "" };
  const there = await loadVisit(about.id);
  const kept = there === null ? null : readVisitFile(there.text).visit;
  const isSame = kept === null || contentOf(kept) === contentOf(visit);
  return { ...visit, about: isSame ? about : { ...about, id: crypto.randomUUID(), title: VISITS_WORDS.fromFile(about.title) } };
}
