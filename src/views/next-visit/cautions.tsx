import type { CautionWords } from "../../../shared/wording/caution";
import { NEXT_VISIT_WORDS } from "../../../shared/wording/story";
import { Disclosure } from "../../parts/disclosure";

type Props = {
  readonly title: string;
  readonly cautions: readonly CautionWords[];
  /** Those that an earlier step has in full: here in one line, with their sentences one click away. */
  readonly again?: readonly CautionWords[];
};

/** Cautions where the work is described, always open; where they come from opens under them. */
export function Cautions({ title, cautions, again = [] }: Props) {
  if (cautions.length + again.length === 0) return null;
  const sources = [...new Set(cautions.map((caution) => caution.source))];
  return (
    <div className="cautions" role="note" aria-label={NEXT_VISIT_WORDS.cautions(title)}>
      <p>
        <strong>{title}</strong>
      </p>
      <ul>
        {again.length === 0 ? null : <li>{NEXT_VISIT_WORDS.againCautions(again.map((caution) => caution.again))}</li>}
        {cautions.map((caution) => (
          <li key={caution.text}>{caution.text}</li>
        ))}
      </ul>
      <Disclosure summary={again.length === 0 ? NEXT_VISIT_WORDS.restOn : NEXT_VISIT_WORDS.inFullAndRestOn}>
        <ul>
          {again.map(({ text, source }) => (
            <li key={text}>
              {text} [{source}]
            </li>
          ))}
          {sources.map((source) => (
            <li key={source}>{source}</li>
          ))}
        </ul>
      </Disclosure>
    </div>
  );
}
