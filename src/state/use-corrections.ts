import { useCallback, useEffect, useRef, useState } from "react";
import type { ImportChoices } from "../../analysis/import/import-choices";
import { CHANNEL_ROLES } from "../../shared/record/channel-role";
import type { FileLayout } from "../../shared/record/file-layout";
import { findCorrection, forgetCorrection, keepCorrection } from "../storage/correction-store";
import type { StoredCorrection } from "../storage/database";
import type { Commands } from "./use-visit";
import { type PageState, wholeVisit } from "./visit-state";

/** What was corrected for logs with these headings before: offered, never applied unasked. */
export type CorrectionOffer = { readonly corrections: readonly StoredCorrection[]; take(): void; leave(): void } | null;

const isEmpty = (choices: ImportChoices) => choices.columns.length === 0 && Object.keys(choices.answers).length === 0;

/**
 * Remembers corrections by the headings of the files, and offers them for the next files with the same ones. Once for each reading, when it
 * has come to something: by then a person may have changed what is remembered, and what was done last stands.
 */
export function useCorrections(state: PageState, commands: Commands): CorrectionOffer {
  // The same as long as its files are not read again: findings that are worked out anew correct nothing.
  const { files = null, choices = null, layouts = null, askedAt = null } = wholeVisit(state.visit) ?? {};
  const [found, setFound] = useState<readonly StoredCorrection[]>([]);
  const corrected = useRef(new WeakSet<object>());

  useEffect(() => {
    setFound([]);
    if (files === null || choices === null || layouts === null) return;
    if (!isEmpty(choices)) {
      corrected.current.add(files);
      if (askedAt === null) return;
      void Promise.all(layouts.map((layout) => keepCorrection(correctionOf(layout, choices, askedAt)))).catch(() => {});
      return;
    }
    // Everything taken back: what was remembered of these headings was a mistake.
    if (corrected.current.has(files)) {
      if (askedAt === null) return;
      void Promise.all(layouts.map((layout) => forgetCorrection(layout.signature, askedAt))).catch(() => {});
      return;
    }
    let isWanted = true;
    const look = Promise.all(layouts.map((layout) => findCorrection(layout.signature)));
    look.then((all) => isWanted && setFound(all.filter((one) => one !== null))).catch(() => {});
    return () => {
      isWanted = false;
    };
  }, [files, choices, layouts, askedAt]);

  const leave = useCallback(() => setFound([]), []);
  if (found.length === 0) return null;
  return { corrections: found, leave, take: () => commands.readAgain(choicesFrom(found)) };
}

/** What of the choices belongs to a file: its own columns, and answers to questions of its columns or of the whole file. @param saved when they were made, Unix ms */
export function correctionOf(layout: FileLayout, choices: ImportChoices, saved: number): StoredCorrection {
  const headings = layout.columns.map((column) => column.heading);
  // when a log began, and how its clock stood to another's, is true of that log alone
  const belongs = (id: string) =>
    (!id.includes(":") && id !== "start-time" && id !== "clock") || headings.includes(id.slice(id.indexOf(":") + 1));
  return {
    signature: layout.signature,
    headings,
    answers: Object.fromEntries(Object.entries(choices.answers).filter(([id]) => belongs(id))),
    columns: choices.columns.filter((column) => headings.includes(column.heading)),
    saved,
  };
}

/** Choices out of what was remembered; a role that this program does not know is left out. */
export function choicesFrom(corrections: readonly StoredCorrection[]): ImportChoices {
  const columns = corrections.flatMap((correction) =>
    correction.columns.flatMap(({ heading, role, unit }) => {
      const known = CHANNEL_ROLES.find((one) => one === role);
      return known === undefined ? [] : [{ heading, role: known, unit }];
    }),
  );
  return { answers: Object.fromEntries(corrections.flatMap((one) => Object.entries(one.answers))), columns, zone: null };
}
