import { SITE_FACTS_WORDS } from "../../../shared/wording/site-fact";
import type { PageProps } from "../view-props";
import { toSiteEntry } from "./entries";

/** Facts that were entered for the visit before are in use for this log: said until somebody decides. */
export function CarriedFacts({ state, commands, dispatch }: PageProps) {
  if (!state.siteCarried) return null;
  const { facts, written } = state.site;
  return (
    <section className="open-questions" aria-labelledby="carried-facts">
      <h2 id="carried-facts">{SITE_FACTS_WORDS.sameSite}</h2>
      <p>
        {SITE_FACTS_WORDS.carried} <bdi>{facts.name ?? Object.values(written).slice(0, 4).join(", ")}</bdi>.
      </p>
      <p className="button-row">
        <button type="button" onClick={() => commands.enterSite(state.site)}>
          {SITE_FACTS_WORDS.keep}
        </button>
        <button type="button" onClick={() => commands.enterSite(toSiteEntry({}))}>
          {SITE_FACTS_WORDS.beginAnew}
        </button>
        <button type="button" onClick={() => dispatch({ do: "open-sheet", sheet: "site-facts" })}>
          {SITE_FACTS_WORDS.show}
        </button>
      </p>
    </section>
  );
}
