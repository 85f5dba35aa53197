import type { Span } from "../../shared/findings/span";
import { FINDINGS_WORDS } from "../../shared/wording/story";

type Props = {
  readonly places: readonly Span[];
  /** What stands there, for a reader who only hears the button: "the longest drift". */
  readonly of: string;
  readonly onShow: (places: readonly Span[]) => void;
};

/** Takes the reader from a sentence to its places on the trace. Nothing where there is no place. */
export function EvidenceLink({ places, of, onShow }: Props) {
  if (places.length === 0) return null;
  return (
    <button type="button" className="evidence-link" onClick={() => onShow(places)} aria-label={`${FINDINGS_WORDS.showOnTrace}: ${of}`}>
      {FINDINGS_WORDS.showPlaces(places.length)}
    </button>
  );
}
