import { useState } from "react";
import { SITE_FACTS_WORDS } from "../../../shared/wording/site-fact";
import { FileButton } from "../../parts/file-button";
import { saveAsFile } from "../../parts/save-as-file";
import { entriesOfFile, type FactEntries, toSiteFile } from "./entries";
import { readFactFile } from "./read-fact-file";

type Props = { readonly entries: FactEntries; readonly onEntries: (entries: FactEntries) => void };

/** Site facts out of a file and into one: the form that the command line reads with --site. */
export function SiteFileButtons({ entries, onEntries }: Props) {
  const [refusal, setRefusal] = useState<string | null>(null);
  const open = async (file: File) => {
    const { read, refusal: why } = readFactFile(await file.text(), file.name, entriesOfFile);
    setRefusal(why);
    if (read !== null) onEntries(read);
  };
  return (
    <div className="site-file">
      <p className="button-row">
        <FileButton
          label={SITE_FACTS_WORDS.readFile}
          fieldLabel={SITE_FACTS_WORDS.file}
          accept=".json,application/json"
          onFiles={([file]) => void open(file)}
        />
        <button type="button" onClick={() => saveAsFile("site.json", "application/json", JSON.stringify(toSiteFile(entries), null, 2))}>
          {SITE_FACTS_WORDS.saveFile}
        </button>
      </p>
      {refusal === null ? null : <p role="alert">{refusal}</p>}
    </div>
  );
}
