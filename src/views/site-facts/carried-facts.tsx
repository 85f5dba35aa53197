import type { PageProps } from "../view-props";
import { toSiteEntry } from "./entries";

/** Facts that were entered for the visit before are in use for this log: said until somebody decides. */
export function CarriedFacts({ state, commands, dispatch }: PageProps) {
  if (!state.siteCarried) return null;
  const { facts, written } = state.site;
  return (
    <section className="open-questions" aria-labelledby="carried-facts">
      <h2 id="carried-facts">Is this the same site?</h2>
      <p>
        The site facts entered for the visit before are in use: <bdi>{facts.name ?? Object.values(written).slice(0, 4).join(", ")}</bdi>.
      </p>
      <p className="button-row">
        <button type="button" onClick={() => commands.enterSite(state.site)}>
          Yes, keep the facts
        </button>
        <button type="button" onClick={() => commands.enterSite(toSiteEntry({}))}>
          No, begin with none
        </button>
        <button type="button" onClick={() => dispatch({ do: "open-sheet", sheet: "site-facts" })}>
          Show the facts
        </button>
      </p>
    </section>
  );
}
