import { useCallback, useEffect, useState } from "react";
import { sayCorrection } from "../../../shared/wording/correction";
import { saveAsFile } from "../../parts/save-as-file";
import { deleteCorrection, keepCorrection, listCorrections } from "../../storage/correction-store";
import type { StoredCorrection } from "../../storage/database";

/** Corrections that are remembered, to see, delete (and take back), and save. They are changed by correcting such a log again. */
export function CorrectionList() {
  const [all, setAll] = useState<readonly StoredCorrection[]>([]);
  const [deleted, setDeleted] = useState<StoredCorrection | null>(null);
  const refresh = useCallback(() => void listCorrections().then(setAll, () => {}), []);
  useEffect(refresh, [refresh]);
  const remove = async (one: StoredCorrection) => {
    await deleteCorrection(one.signature);
    setDeleted(one);
    refresh();
  };
  const putBack = async (one: StoredCorrection) => {
    await keepCorrection(one);
    setDeleted(null);
    refresh();
  };
  return (
    <>
      {all.length === 0 ? (
        <p>Where you correct how a log was read, that is remembered here and offered for the next log with the same headings.</p>
      ) : null}
      <ul className="kept-list">
        {all.map((one) => (
          <li key={one.signature} className="kept">
            <span>
              <bdi>{one.headings.join(", ")}</bdi>
              <br />
              <span className="soft small">
                <bdi>{sayCorrection(one).join("; ")}</bdi>
              </span>
            </span>
            <button type="button" aria-label={`Delete the corrections for ${one.headings.join(", ")}`} onClick={() => void remove(one)}>
              Delete
            </button>
          </li>
        ))}
      </ul>
      <p className="button-row">
        {deleted === null ? null : (
          <button type="button" onClick={() => void putBack(deleted)}>
            Put back what was deleted
          </button>
        )}
        <button
          type="button"
          disabled={all.length === 0}
          onClick={() => saveAsFile("evenhead corrections.json", "application/json", JSON.stringify(all, null, 2))}
        >
          Save the corrections as a file
        </button>
      </p>
    </>
  );
}
