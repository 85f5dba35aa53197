import { useMemo } from "react";
import type { FactKey } from "../../../shared/site/fact-key";
import type { PageProps } from "../view-props";
import { readEntries, toSiteEntry } from "./entries";
import { FactField } from "./fact-fields";

type Props = Pick<PageProps, "state" | "preferences" | "commands"> & {
  readonly name: FactKey;
  /** Where on the page it stands: a fact may be asked for in several places. */
  readonly at: string;
};

/** A fact entered where it is asked for: beside a cause or a step, on site. The findings and causes follow at once; undo takes it back. */
export function EnterFact({ name, at, state, preferences, commands }: Props) {
  const entries = state.site.written;
  const read = useMemo(() => readEntries(entries), [entries]);
  return (
    <FactField
      name={name}
      fieldId={`${at}-${name}`}
      entries={entries}
      read={read}
      units={preferences.units}
      onEntries={(next) => commands.enterSite(toSiteEntry(next))}
    />
  );
}
