import { ACCEPTANCE_WORDS } from "../../../shared/wording/acceptance";
import { keptCompanyLimits } from "../../state/company-limits";
import { companyLimitsOf, underCompanyLimits } from "../site-facts/entries";
import type { PageProps } from "../view-props";

/** A kept visit stands under the company's limits it was kept with; where those of today differ, it can be held against them. */
export function LimitsOfThen({ state, commands }: Pick<PageProps, "state" | "commands">) {
  const today = keptCompanyLimits();
  if (JSON.stringify(companyLimitsOf(state.site)) === JSON.stringify(today)) return null;
  return (
    <section className="open-questions" aria-label={ACCEPTANCE_WORDS.otherLimits}>
      <p>{ACCEPTANCE_WORDS.otherLimitsWhy}</p>
      <p className="button-row">
        <button type="button" onClick={() => commands.enterSite(underCompanyLimits(state.site, today))}>
          {ACCEPTANCE_WORDS.takeLimitsOfToday}
        </button>
      </p>
    </section>
  );
}
