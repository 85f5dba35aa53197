import { useState } from "react";
import { PICKER_WORDS } from "../../../shared/wording/bring-in";
import { Disclosure } from "../../parts/disclosure";
import { FileButton } from "../../parts/file-button";
import type { PickedFile } from "../../worker/messages";
import { pastedFile, pickedFiles } from "./picked-files";

type Props = {
  readonly onFiles: (files: readonly PickedFile[]) => void;
  /** Fewer words where a record stands on the page already. */
  readonly compact?: boolean;
};

/** Pick or paste one or several files; that they can be dropped on the page is said here and done by `useFilesOnPage`. */
export function FilePicker({ onFiles, compact = false }: Props) {
  return (
    <div className="file-picker">
      <p className="button-row">
        <FileButton
          label={compact ? PICKER_WORDS.other : PICKER_WORDS.bringIn}
          fieldLabel={PICKER_WORDS.files}
          className="button-main"
          multiple
          onFiles={(files) => onFiles(pickedFiles(files))}
        />
        <span className="file-picker-hint">{PICKER_WORDS.hint}</span>
      </p>
      <PasteBox onFiles={onFiles} />
    </div>
  );
}

function PasteBox({ onFiles }: Pick<Props, "onFiles">) {
  const [text, setText] = useState("");
  const file = pastedFile(text);
  return (
    <Disclosure summary={PICKER_WORDS.paste}>
      <label htmlFor="pasted-table">{PICKER_WORDS.rows}</label>
      <textarea id="pasted-table" rows={6} spellCheck={false} value={text} onChange={(event) => setText(event.target.value)} />
      <p className="button-row">
        <button type="button" disabled={file === null} onClick={() => file !== null && onFiles([file])}>
          {PICKER_WORDS.readPasted}
        </button>
      </p>
    </Disclosure>
  );
}
