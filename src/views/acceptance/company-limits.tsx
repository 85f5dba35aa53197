import { useMemo, useState } from "react";
import { COMPANY_LIMITS, type CompanyLimits, readCompanyLimits, writeCompanyLimits } from "../../../shared/site/company-limits";
import { ACCEPTANCE_WORDS } from "../../../shared/wording/acceptance";
import { Disclosure } from "../../parts/disclosure";
import { FileButton } from "../../parts/file-button";
import { saveAsFile } from "../../parts/save-as-file";
import { keepCompanyLimits, keptCompanyLimits } from "../../state/company-limits";
import { type FactEntries, readEntries, underCompanyLimits, usableLimits } from "../site-facts/entries";
import { FactField } from "../site-facts/fact-fields";
import { readFactFile } from "../site-facts/read-fact-file";
import "../site-facts/site-facts.css";
import { FILE_NAMES } from "../../../shared/wording/file-name";
import type { PageProps } from "../view-props";

/** Limits of the company for all its sites: kept in this browser, into a file and out of one. A site's own limit comes first. */
export function CompanyLimitsForm({ state, preferences, commands }: PageProps) {
  const [limits, setLimits] = useState<CompanyLimits>(keptCompanyLimits);
  const [refusal, setRefusal] = useState<string | null>(null);
  const read = useMemo(() => readEntries(limits), [limits]);
  const enter = (entries: FactEntries) => {
    const next = Object.fromEntries(COMPANY_LIMITS.flatMap((key) => ((entries[key] ?? "") === "" ? [] : [[key, entries[key]]])));
    const usable = usableLimits(next);
    setLimits(next);
    keepCompanyLimits(usable);
    commands.enterSite(underCompanyLimits(state.site, usable));
  };
  const open = async (file: File) => {
    const { read: found, refusal: why } = readFactFile(await file.text(), file.name, readCompanyLimits);
    setRefusal(why);
    if (found !== null) enter(found);
  };
  return (
    <Disclosure summary={ACCEPTANCE_WORDS.company}>
      <p>{ACCEPTANCE_WORDS.companyIntro}</p>
      <div className="field-grid">
        {COMPANY_LIMITS.map((key) => (
          <FactField
            key={key}
            name={key}
            fieldId={`company-${key}`}
            entries={limits}
            read={read}
            units={preferences.units}
            onEntries={enter}
          />
        ))}
      </div>
      <p className="button-row">
        <FileButton
          label={ACCEPTANCE_WORDS.readCompany}
          fieldLabel={ACCEPTANCE_WORDS.companyFile}
          accept=".json,application/json"
          onFiles={([file]) => void open(file)}
        />
        <button
          type="button"
          onClick={() => saveAsFile(FILE_NAMES.companyLimits, "application/json", writeCompanyLimits(usableLimits(limits)))}
        >
          {ACCEPTANCE_WORDS.saveCompany}
        </button>
      </p>
      {refusal === null ? null : <p role="alert">{refusal}</p>}
    </Disclosure>
  );
}
