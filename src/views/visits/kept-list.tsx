import { sayMoment } from "../../../shared/wording/instant";
import { VISITS_WORDS } from "../../../shared/wording/visits";
import type { KeptVisits } from "../../state/use-kept-visits";
import type { StoredVisit } from "../../storage/database";

type Props = { readonly kept: KeptVisits; readonly locale: string | null };

/** The visits of this browser, latest first; a deleted one can be put back until it is gone for good. */
export function KeptList({ kept, locale }: Props) {
  if (kept.visits.length === 0) return <p>{VISITS_WORDS.none}</p>;
  const isAnyDeleted = kept.visits.some((visit) => visit.deletedAt !== null);
  return (
    <>
      <ul className="kept-list">
        {kept.visits.map((visit) => (
          <KeptEntry key={visit.id} visit={visit} kept={kept} locale={locale} />
        ))}
      </ul>
      {isAnyDeleted ? (
        <button type="button" className="button-quiet" onClick={() => void kept.removeForGood()}>
          {VISITS_WORDS.removeForGood}
        </button>
      ) : null}
    </>
  );
}

function KeptEntry({ visit, kept, locale }: Props & { readonly visit: StoredVisit }) {
  const when = sayMoment(visit.saved, locale);
  if (visit.deletedAt !== null) {
    return (
      <li className="kept" data-deleted="true">
        <span>
          <bdi>{visit.title}</bdi>
          {VISITS_WORDS.deleted}
        </span>
        <button type="button" aria-label={VISITS_WORDS.putBackVisit(visit.title)} onClick={() => void kept.putBack(visit.id)}>
          {VISITS_WORDS.putBack}
        </button>
      </li>
    );
  }
  return (
    <li className="kept">
      <span>
        <strong>
          <bdi>{visit.title}</bdi>
        </strong>
        {visit.id === kept.openId ? VISITS_WORDS.onPage : ""}
        <br />
        <span className="soft small">
          <bdi>{visit.files.join(", ")}</bdi>
          {VISITS_WORDS.kept(when, visit.bytes, visit.hasLog, locale)}
        </span>
      </span>
      <span className="kept-buttons">
        <button
          type="button"
          aria-label={VISITS_WORDS.openVisit(visit.title)}
          disabled={visit.id === kept.openId}
          onClick={() => void kept.open(visit.id)}
        >
          {VISITS_WORDS.open}
        </button>
        <button type="button" aria-label={VISITS_WORDS.removeVisit(visit.title)} onClick={() => void kept.remove(visit.id)}>
          {VISITS_WORDS.remove}
        </button>
      </span>
    </li>
  );
}
