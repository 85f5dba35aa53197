import { useCallback, useEffect, useRef, useState } from "react";
import { CORRECTIONS_WORDS } from "../../../shared/wording/bring-in";
import { sayCorrection } from "../../../shared/wording/correction";
import { FILE_NAMES } from "../../../shared/wording/file-name";
import { FileButton } from "../../parts/file-button";
import { saveAsFile } from "../../parts/save-as-file";
import { forgetCorrection, keepCorrection, listCorrections } from "../../storage/correction-store";
import type { StoredCorrection } from "../../storage/database";
import { readCorrections, subjectOf } from "../../storage/read-corrections";
import { CorrectionPoint } from "./correction-point";

/** Corrections that are remembered: to see, to change, to forget as a whole or one by one (and take back), to save and to bring back from such a file. */
export function CorrectionList() {
  const [all, setAll] = useState<readonly StoredCorrection[]>([]);
  const [deleted, setDeleted] = useState<StoredCorrection | null>(null);
  const changes = useRef(0);
  const refresh = useCallback(() => {
    const before = changes.current;
    // What was read before the latest change is not shown over it.
    const show = (read: readonly StoredCorrection[]) => before === changes.current && setAll(read);
    void listCorrections().then(show, () => {});
  }, []);
  useEffect(refresh, [refresh]);
  const change = (before: StoredCorrection, after: StoredCorrection | null) => {
    changes.current++;
    // At once: the next change is made to this one, however long the store takes.
    setAll((now) => now.flatMap((one) => (one !== before ? [one] : after === null ? [] : [after])));
    setDeleted(before);
    void (after === null ? forgetCorrection(before.signature, Date.now()) : keepNow(after)).then(refresh, refresh);
  };
  const putBack = (one: StoredCorrection) => {
    changes.current++;
    setDeleted(null);
    void keepNow(one).then(refresh, refresh);
  };
  return (
    <>
      {all.length === 0 ? <p>{CORRECTIONS_WORDS.none}</p> : null}
      <ul className="kept-list">
        {all.map((one) => (
          <li key={one.signature} className="kept">
            <span>
              <bdi>{one.headings.join(", ")}</bdi>
              <ul className="soft small">
                {sayCorrection(one).map((point, at) => (
                  // by what it is about: it stays open while its words change
                  <CorrectionPoint key={subjectOf(one, at)} one={one} at={at} point={point} onChange={(after) => change(one, after)} />
                ))}
              </ul>
            </span>
            <button type="button" aria-label={CORRECTIONS_WORDS.deleteThese(one.headings.join(", "))} onClick={() => change(one, null)}>
              {CORRECTIONS_WORDS.delete}
            </button>
          </li>
        ))}
      </ul>
      <p className="button-row">
        {deleted === null ? null : (
          <button type="button" onClick={() => putBack(deleted)}>
            {CORRECTIONS_WORDS.putBack}
          </button>
        )}
        <button
          type="button"
          disabled={all.length === 0}
          onClick={() => saveAsFile(FILE_NAMES.corrections, "application/json", JSON.stringify(all, null, 2))}
        >
          {CORRECTIONS_WORDS.save}
        </button>
        <BringBack onDone={refresh} />
      </p>
    </>
  );
}

/** What is done here by hand stands over what was there, and over what is still being read. */
const keepNow = (one: StoredCorrection): Promise<void> => keepCorrection({ ...one, saved: Date.now() });

/** Corrections out of a file that was saved here or in another browser; of two for the same headings the file's own stands. */
function BringBack({ onDone }: { readonly onDone: () => void }) {
  const [said, setSaid] = useState("");
  const take = async (file: File) => {
    const read = readCorrections(await file.text());
    for (const one of read ?? []) await keepNow(one);
    setSaid(read === null ? CORRECTIONS_WORDS.noneIn(file.name) : CORRECTIONS_WORDS.broughtBack(read.length));
    onDone();
  };
  return (
    <>
      <FileButton
        label={CORRECTIONS_WORDS.bringBack}
        fieldLabel={CORRECTIONS_WORDS.file}
        accept="application/json,.json"
        onFiles={([file]) => void take(file).catch(() => setSaid(CORRECTIONS_WORDS.keepsNothing))}
      />
      <span role="status">{said}</span>
    </>
  );
}
