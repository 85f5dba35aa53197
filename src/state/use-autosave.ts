import { useCallback, useEffect, useRef, useState } from "react";
import { type VisitFile, writeVisitFile } from "../../shared/schemas/visit-file";
import { digestOfVisit } from "../storage/visit-digest";
import { type SaveOutcome, saveVisit } from "../storage/visit-store";
import type { PickedFile } from "../worker/messages";
import type { VisitIdentities } from "./visit-identities";

/** How the visit on the page stands in the browser's store. */
export type Saving = { readonly state: "nothing" } | { readonly state: "saving" } | SaveOutcome;

const SAVE_AFTER_MS = 500;

type Autosave = {
  readonly saving: Saving;
  /** Saves over what another tab saved. */
  saveOver(): Promise<void>;
};

/**
 * Keeps the visit on the page soon after each change, one save after the other.
 * @param files of the visit on the page     @param form the visit as it would be saved; null while there is none or it is still worked on
 * @param onSaved called with the visit's id after each save that wrote something
 */
export function useAutosave(
  ids: VisitIdentities,
  files: readonly PickedFile[] | null,
  form: VisitFile | null,
  onSaved: (id: string) => void,
): Autosave {
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const queue = useRef(Promise.resolve());
  const unsaved = useRef<{ readonly files: readonly PickedFile[] | null; save(): Promise<void> } | null>(null);

  const save = useCallback(
    (over: boolean): Promise<void> => {
      const work = async () => {
        if (files === null || form?.about == null) return;
        const identity = ids.of(files);
        const content = contentOf(form);
        if (!over && identity.content === content) return setSaving({ state: "saved", revision: identity.revision });
        const { id, title, saved } = form.about;
        const names = files.map((file) => file.name);
        const toSave = { id, title, files: names, saved: Date.parse(saved), digest: digestOfVisit(form), text: writeVisitFile(form) };
        const outcome = await saveVisit(toSave, files, over ? null : identity.revision);
        setSaving(outcome);
        if (outcome.state !== "saved" && outcome.state !== "saved-without-log") return;
        ids.note(files, { id, revision: outcome.revision, content });
        onSaved(id);
      };
      queue.current = queue.current.then(work, work);
      return queue.current;
    },
    [ids, files, form, onSaved],
  );

  useEffect(() => {
    // The visit before may leave the page sooner than its last change is saved.
    if (unsaved.current !== null && (form === null || unsaved.current.files !== files)) void unsaved.current.save();
    if (form === null) return;
    // The same while one goes on typing: nothing to draw anew.
    setSaving((before) => (before.state === "saving" ? before : { state: "saving" }));
    const saveNow = () => {
      unsaved.current = null;
      return save(false);
    };
    unsaved.current = { files, save: saveNow };
    const timer = setTimeout(() => void saveNow(), SAVE_AFTER_MS);
    return () => clearTimeout(timer);
  }, [files, form, save]);
  useUnsavedGuard(saving);
  return { saving, saveOver: () => save(true) };
}

/** What a save would keep, without when: two saves of the same are one. */
export const contentOf = (form: VisitFile): string => JSON.stringify({ ...form, about: form.about?.title ?? "", log: null });

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
