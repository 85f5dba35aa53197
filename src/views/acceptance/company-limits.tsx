import { useMemo, useRef, useState } from "react";
import { SiteFileError } from "../../../shared/problems/site-file-problem";
import { COMPANY_LIMITS, type CompanyLimits, readCompanyLimits, writeCompanyLimits } from "../../../shared/site/company-limits";
import { ACCEPTANCE_WORDS } from "../../../shared/wording/acceptance";
import { saySiteFileProblem } from "../../../shared/wording/site-file-problem";
import { Disclosure } from "../../parts/disclosure";
import { saveAsFile } from "../../parts/save-as-file";
import { keepCompanyLimits, keptCompanyLimits } from "../../state/company-limits";
import { type FactEntries, readEntries, underCompanyLimits, usableLimits } from "../site-facts/entries";
import { FactField } from "../site-facts/fact-fields";
import "../site-facts/site-facts.css";
import type { PageProps } from "../view-props";

/** Limits of the company for all its sites: kept in this browser, into a file and out of one. A site's own limit comes first. */
export function CompanyLimitsForm({ state, preferences, commands }: PageProps) {
  const [limits, setLimits] = useState<CompanyLimits>(keptCompanyLimits);
  const [refusal, setRefusal] = useState<string | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const read = useMemo(() => readEntries(limits), [limits]);
  const enter = (entries: FactEntries) => {
    const next = Object.fromEntries(COMPANY_LIMITS.flatMap((key) => ((entries[key] ?? "") === "" ? [] : [[key, entries[key]]])));
    const usable = usableLimits(next);
    setLimits(next);
    keepCompanyLimits(usable);
    commands.enterSite(underCompanyLimits(state.site, usable));
  };
  const open = async (file: File) => {
    const found = readFile(await file.text(), file.name);
    setRefusal(found.refusal);
    if (found.limits !== null) enter(found.limits);
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
        <button type="button" onClick={() => input.current?.click()}>
          {ACCEPTANCE_WORDS.readCompany}
        </button>
        <button
          type="button"
          onClick={() => saveAsFile("company limits.json", "application/json", writeCompanyLimits(usableLimits(limits)))}
        >
          {ACCEPTANCE_WORDS.saveCompany}
        </button>
      </p>
      <input
        ref={input}
        type="file"
        hidden
        accept=".json,application/json"
        aria-label={ACCEPTANCE_WORDS.companyFile}
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = "";
          if (file !== undefined) void open(file);
        }}
      />
      {refusal === null ? null : <p role="alert">{refusal}</p>}
    </Disclosure>
  );
}

type ReadFile = { readonly limits: CompanyLimits; readonly refusal: null } | { readonly limits: null; readonly refusal: string };

function readFile(text: string, name: string): ReadFile {
  try {
    return { limits: readCompanyLimits(JSON.parse(text), name), refusal: null };
  } catch (error) {
    if (error instanceof SiteFileError) return { limits: null, refusal: saySiteFileProblem(error.problem) };
    return { limits: null, refusal: error instanceof Error ? error.message : String(error) };
  }
}
