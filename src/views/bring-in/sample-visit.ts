import { NO_CHOICES } from "../../../analysis/import/import-choices";
import logAddress from "../../../sample-data/visits/hillside-before.csv?url";
import siteAddress from "../../../sample-data/visits/hillside-before.site.json?url";
import { EMPTY_CHECKLIST } from "../../../shared/findings/checklist";
import { SAMPLE_LOG } from "../../../shared/wording/sample-guide";
import type { KeptVisit } from "../../state/use-visit";
import { fromSiteFile, toSiteEntry } from "../site-facts/entries";

/** The invented visit that comes with the page: log and site facts, as a person would bring them in. */
export async function fetchSampleVisit(): Promise<KeptVisit> {
  const [log, site] = await Promise.all([fetch(logAddress), fetch(siteAddress)]);
  if (!log.ok || !site.ok) throw new Error(`the sample visit cannot be fetched (${log.status}, ${site.status})`);
  const written: unknown = await site.json();
  return {
    files: [{ name: SAMPLE_LOG, blob: await log.blob() }],
    choices: NO_CHOICES,
    site: toSiteEntry(fromSiteFile(written)),
    checklist: EMPTY_CHECKLIST,
    before: null,
  };
}
