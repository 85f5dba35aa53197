import { isSavingTrouble, saySaving } from "../../../shared/wording/saving";
import { VISITS_WORDS } from "../../../shared/wording/visits";
import type { PageProps } from "../view-props";
import "./visits.css";

/** What a person must know about keeping the visit, with what can be done; nothing while all is well. */
export function KeptNotice({ kept, dispatch }: PageProps) {
  const { state } = kept.saving;
  if (!isSavingTrouble(state) && kept.trouble === null) return null;
  return (
    <section className="kept-notice" role="alert">
      {kept.trouble === null ? null : <p>{kept.trouble}</p>}
      {isSavingTrouble(state) ? <p>{saySaving(state)}</p> : null}
      {kept.saving.state === "not-possible" ? (
        <p className="soft">
          {VISITS_WORDS.browserSays}
          <bdi>{kept.saving.why}</bdi>
        </p>
      ) : null}
      <p className="button-row">
        {state === "changed-elsewhere" ? (
          <>
            <button type="button" onClick={() => void kept.saveOver()}>
              {VISITS_WORDS.keepThis}
            </button>
            <button type="button" onClick={() => kept.openId !== null && void kept.open(kept.openId)}>
              {VISITS_WORDS.openOther}
            </button>
          </>
        ) : null}
        <button type="button" onClick={() => dispatch({ do: "open-sheet", sheet: "visits" })}>
          {VISITS_WORDS.showKept}
        </button>
      </p>
    </section>
  );
}
