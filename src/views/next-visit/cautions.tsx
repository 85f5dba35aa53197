import type { CautionWords } from "../../../shared/wording/caution";
import { NEXT_VISIT_WORDS } from "../../../shared/wording/story";
import { Disclosure } from "../../parts/disclosure";

type Props = { readonly title: string; readonly cautions: readonly CautionWords[] };

/** Cautions where the work is described, always open; where they come from opens under them. */
export function Cautions({ title, cautions }: Props) {
  if (cautions.length === 0) return null;
  return (
    <div className="cautions" role="note" aria-label={NEXT_VISIT_WORDS.cautions(title)}>
      <p>
        <strong>{title}</strong>
      </p>
      <ul>
        {cautions.map((caution) => (
          <li key={caution.text}>{caution.text}</li>
        ))}
      </ul>
      <Disclosure summary={NEXT_VISIT_WORDS.restOn}>
        <ul>
          {[...new Set(cautions.map((caution) => caution.source))].map((source) => (
            <li key={source}>{source}</li>
          ))}
        </ul>
      </Disclosure>
    </div>
  );
}
