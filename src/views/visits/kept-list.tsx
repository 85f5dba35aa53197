import { sayMoment } from "../../../shared/wording/instant";
import { saySize } from "../../../shared/wording/reading-progress";
import type { KeptVisits } from "../../state/use-kept-visits";
import type { StoredVisit } from "../../storage/database";

type Props = { readonly kept: KeptVisits; readonly locale: string | null };

/** The visits of this browser, latest first; a deleted one can be put back until it is gone for good. */
export function KeptList({ kept, locale }: Props) {
  if (kept.visits.length === 0) return <p>Each log you bring in is kept here as a visit, with its facts, findings, ticks and notes.</p>;
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
          Do away with the deleted visits now
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
          <bdi>{visit.title}</bdi>: deleted
        </span>
        <button type="button" aria-label={`Put back ${visit.title}`} onClick={() => void kept.putBack(visit.id)}>
          Put back
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
        {visit.id === kept.openId ? " (on the page)" : ""}
        <br />
        <span className="soft small">
          <bdi>{visit.files.join(", ")}</bdi>, kept {when}, {saySize(visit.bytes, locale)}
          {visit.hasLog ? "" : ", without its log"}
        </span>
      </span>
      <span className="kept-buttons">
        <button
          type="button"
          aria-label={`Open ${visit.title}`}
          disabled={visit.id === kept.openId}
          onClick={() => void kept.open(visit.id)}
        >
          Open
        </button>
        <button type="button" aria-label={`Delete ${visit.title}`} onClick={() => void kept.remove(visit.id)}>
          Delete
        </button>
      </span>
    </li>
  );
}
