import { useCallback, useEffect, useState } from "react";
import { CORRECTIONS_WORDS } from "../../../shared/wording/bring-in";
import { sayCorrection } from "../../../shared/wording/correction";
import { FileButton } from "../../parts/file-button";
import { saveAsFile } from "../../parts/save-as-file";
import { deleteCorrection, keepCorrection, listCorrections } from "../../storage/correction-store";
import type { StoredCorrection } from "../../storage/database";
import { readCorrections, subjectOf } from "../../storage/read-corrections";
import { CorrectionPoint } from "./correction-point";

/** Corrections that are remembered: to see, to change, to forget as a whole or one by one (and take back), to save and to bring back from such a file. */
export function CorrectionList() {
  const [all, setAll] = useState<readonly StoredCorrection[]>([]);
  const [deleted, setDeleted] = useState<StoredCorrection | null>(null);
  const refresh = useCallback(() => void listCorrections().then(setAll, () => {}), []);
  useEffect(refresh, [refresh]);
  const change = async (before: StoredCorrection, after: StoredCorrection | null) => {
    await (after === null ? deleteCorrection(before.signature) : keepCorrection(after));
    setDeleted(before);
    refresh();
  };
  const putBack = async (one: StoredCorrection) => {
    await keepCorrection(one);
    setDeleted(null);
    refresh();
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
                  <CorrectionPoint key={subjectOf(one, at)} one={one} at={at} point={point} onChange={(after) => void change(one, after)} />
                ))}
              </ul>
            </span>
            <button
              type="button"
              aria-label={CORRECTIONS_WORDS.deleteThese(one.headings.join(", "))}
              onClick={() => void change(one, null)}
            >
              {CORRECTIONS_WORDS.delete}
            </button>
          </li>
        ))}
      </ul>
      <p className="button-row">
        {deleted === null ? null : (
          <button type="button" onClick={() => void putBack(deleted)}>
            {CORRECTIONS_WORDS.putBack}
          </button>
        )}
        <button
          type="button"
          disabled={all.length === 0}
          onClick={() => saveAsFile("evenhead corrections.json", "application/json", JSON.stringify(all, null, 2))}
        >
          {CORRECTIONS_WORDS.save}
        </button>
        <BringBack onDone={refresh} />
      </p>
    </>
  );
}

/** Corrections out of a file that was saved here or in another browser; of two for the same headings the file's own stands. */
function BringBack({ onDone }: { readonly onDone: () => void }) {
  const [said, setSaid] = useState("");
  const take = async (file: File) => {
    const read = readCorrections(await file.text());
    for (const one of read ?? []) await keepCorrection(one);
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
