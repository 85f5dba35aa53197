import { CORRECTIONS_WORDS } from "../../../shared/wording/bring-in";
import { sayCorrection } from "../../../shared/wording/correction";
import type { PageProps } from "../view-props";
import "./bring-in.css";

/** What was corrected for a log with these headings before, offered for this one. */
export function CorrectionOffer({ corrections: offer }: Pick<PageProps, "corrections">) {
  if (offer === null) return null;
  return (
    <section className="open-questions" aria-labelledby="correction-offer">
      <h2 id="correction-offer">{CORRECTIONS_WORDS.offer}</h2>
      <ul>
        {offer.corrections.flatMap(sayCorrection).map((line) => (
          <li key={line}>
            <bdi>{line}</bdi>
          </li>
        ))}
      </ul>
      <p className="button-row">
        <button type="button" onClick={offer.take}>
          {CORRECTIONS_WORDS.take}
        </button>
        <button type="button" onClick={offer.leave}>
          {CORRECTIONS_WORDS.leave}
        </button>
      </p>
    </section>
  );
}
