import { useId } from "react";
import { ROUND_WORDS } from "../../../shared/wording/round";
import { FileButton } from "../../parts/file-button";
import { ROUND_FILTERS, ROUND_ORDERS, type RoundFilter, type RoundOrder } from "./round-rows";

export type RoundChoice = { readonly order: RoundOrder; readonly search: string; readonly filter: RoundFilter };

type Props = {
  readonly choice: RoundChoice;
  readonly onChoice: (choice: RoundChoice) => void;
  readonly onFiles: (files: readonly File[]) => void;
};

/** What is shown of the round, and where else visits come from. */
export function RoundTools({ choice, onChoice, onFiles }: Props) {
  const ids = { search: useId(), order: useId(), filter: useId() };
  return (
    <div className="round-tools">
      <p className="button-row">
        <FileButton label={ROUND_WORDS.openFolder} fieldLabel={ROUND_WORDS.folder} isFolder onFiles={onFiles} />
        <FileButton label={ROUND_WORDS.openFiles} fieldLabel={ROUND_WORDS.files} accept=".json,.jsonl" multiple onFiles={onFiles} />
      </p>
      <span>
        <label htmlFor={ids.search}>{ROUND_WORDS.search}</label>
        <input
          id={ids.search}
          type="search"
          value={choice.search}
          onChange={({ target }) => onChoice({ ...choice, search: target.value })}
        />
      </span>
      <span>
        <label htmlFor={ids.filter}>{ROUND_WORDS.show}</label>
        <select
          id={ids.filter}
          value={choice.filter}
          onChange={({ target }) => onChoice({ ...choice, filter: ROUND_FILTERS.find((id) => id === target.value) ?? "all" })}
        >
          {ROUND_FILTERS.map((id) => (
            <option key={id} value={id}>
              {ROUND_WORDS.filters[id]}
            </option>
          ))}
        </select>
      </span>
      <span>
        <label htmlFor={ids.order}>{ROUND_WORDS.order}</label>
        <select
          id={ids.order}
          value={choice.order}
          onChange={({ target }) => onChoice({ ...choice, order: ROUND_ORDERS.find((id) => id === target.value) ?? "attention" })}
        >
          {ROUND_ORDERS.map((id) => (
            <option key={id} value={id}>
              {ROUND_WORDS.orders[id]}
            </option>
          ))}
        </select>
      </span>
    </div>
  );
}
