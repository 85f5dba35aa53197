import { useRef, useState } from "react";
import { SiteFileError } from "../../../shared/problems/site-file-problem";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { SITE_FACTS_WORDS } from "../../../shared/wording/site-fact";
import { saySiteFileProblem } from "../../../shared/wording/site-file-problem";
import { saveAsFile } from "../../parts/save-as-file";
import { type FactEntries, fromSiteFile, toSiteFile } from "./entries";

type Props = { readonly entries: FactEntries; readonly onEntries: (entries: FactEntries) => void };

/** Site facts out of a file and into one: the form that the command line reads with --site. */
export function SiteFileButtons({ entries, onEntries }: Props) {
  const input = useRef<HTMLInputElement>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const open = async (file: File) => {
    const read = readSiteFile(await file.text(), file.name);
    setRefusal(read.refusal);
    if (read.entries !== null) onEntries(read.entries);
  };
  return (
    <div className="site-file">
      <p className="button-row">
        <button type="button" onClick={() => input.current?.click()}>
          {SITE_FACTS_WORDS.readFile}
        </button>
        <button type="button" onClick={() => saveAsFile("site.json", "application/json", JSON.stringify(toSiteFile(entries), null, 2))}>
          {SITE_FACTS_WORDS.saveFile}
        </button>
      </p>
      <input
        ref={input}
        type="file"
        hidden
        accept=".json,application/json"
        aria-label={SITE_FACTS_WORDS.file}
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = "";
          if (file !== undefined) void open(file);
        }}
      />
      {refusal === null ? null : <p role="alert">{refusal}</p>}
    </div>
  );
}

type ReadFile = { readonly entries: FactEntries; readonly refusal: null } | { readonly entries: null; readonly refusal: string };

/** The entries of a site file as text, or the sentence that says why it cannot be used; a file is taken whole or not at all. */
export function readSiteFile(text: string, name: string): ReadFile {
  try {
    const file: unknown = JSON.parse(text);
    readSiteFacts(file, name);
    return { entries: fromSiteFile(file), refusal: null };
  } catch (error) {
    if (error instanceof SiteFileError) return { entries: null, refusal: saySiteFileProblem(error.problem) };
    const why = error instanceof Error ? error.message : String(error);
    return { entries: null, refusal: saySiteFileProblem({ id: "not-json", file: name, why }) };
  }
}
