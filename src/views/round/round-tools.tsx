import { useId } from "react";
import { ROUND_FILTERS, type RoundFilter, type RoundOrder } from "./round-rows";

export type RoundChoice = { readonly order: RoundOrder; readonly search: string; readonly filter: RoundFilter };

const ORDERS: readonly (readonly [RoundOrder, string])[] = [
  ["attention", "what needs attention first"],
  ["worsening", "what became worse since the visit before"],
  ["last-visit", "latest record first"],
  ["longest-ago", "longest not visited"],
  ["starts", "most starts in an hour"],
  ["short-cycles", "most short cycles"],
  ["site", "name of the site"],
];
const FILTER_WORDS: Readonly<Record<RoundFilter, string>> = {
  all: "all sites",
  attention: "sites that break a limit",
  worse: "sites worse than at the visit before",
  "not-accepted": "sites that do not pass acceptance",
  unread: "records that could not be read",
};

type Props = {
  readonly choice: RoundChoice;
  readonly onChoice: (choice: RoundChoice) => void;
  readonly onFiles: (files: readonly File[]) => void;
};

/** What is shown of the round, and where else visits come from. */
export function RoundTools({ choice, onChoice, onFiles }: Props) {
  const ids = { files: useId(), folder: useId(), search: useId(), order: useId(), filter: useId() };
  const picked = (files: FileList | null) => onFiles([...(files ?? [])]);
  return (
    <div className="round-tools">
      <span>
        <label htmlFor={ids.folder}>Folder of visits or findings</label>
        {/* webkitdirectory is in all browsers and in the HTML standard's drafts, not yet in React's types. */}
        <input id={ids.folder} type="file" {...{ webkitdirectory: "" }} onChange={({ target }) => picked(target.files)} />
      </span>
      <span>
        <label htmlFor={ids.files}>Visit files or findings</label>
        <input id={ids.files} type="file" multiple accept=".json,.jsonl" onChange={({ target }) => picked(target.files)} />
      </span>
      <span>
        <label htmlFor={ids.search}>Search</label>
        <input
          id={ids.search}
          type="search"
          value={choice.search}
          onChange={({ target }) => onChoice({ ...choice, search: target.value })}
        />
      </span>
      <span>
        <label htmlFor={ids.filter}>Show</label>
        <select
          id={ids.filter}
          value={choice.filter}
          onChange={({ target }) => onChoice({ ...choice, filter: ROUND_FILTERS.find((id) => id === target.value) ?? "all" })}
        >
          {ROUND_FILTERS.map((id) => (
            <option key={id} value={id}>
              {FILTER_WORDS[id]}
            </option>
          ))}
        </select>
      </span>
      <span>
        <label htmlFor={ids.order}>Order</label>
        <select
          id={ids.order}
          value={choice.order}
          onChange={({ target }) => onChoice({ ...choice, order: ORDERS.find(([id]) => id === target.value)?.[0] ?? "attention" })}
        >
          {ORDERS.map(([id, words]) => (
            <option key={id} value={id}>
              {words}
            </option>
          ))}
        </select>
      </span>
    </div>
  );
}
