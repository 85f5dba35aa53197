import { useRef, useState } from "react";
import { PICKER_WORDS } from "../../../shared/wording/bring-in";
import { Disclosure } from "../../parts/disclosure";
import type { PickedFile } from "../../worker/messages";
import { pastedFile, pickedFiles } from "./picked-files";

type Props = {
  readonly onFiles: (files: readonly PickedFile[]) => void;
  /** Fewer words where a record stands on the page already. */
  readonly compact?: boolean;
};

/** Pick or paste one or several files; that they can be dropped on the page is said here and done by `BringInAnywhere`. */
export function FilePicker({ onFiles, compact = false }: Props) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <div className="file-picker">
      <p className="button-row">
        <button type="button" className="button-main" onClick={() => input.current?.click()}>
          {compact ? PICKER_WORDS.other : PICKER_WORDS.bringIn}
        </button>
        <span className="file-picker-hint">{PICKER_WORDS.hint}</span>
      </p>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        aria-label={PICKER_WORDS.files}
        onChange={(event) => {
          const files = pickedFiles(event.target.files ?? []);
          event.target.value = "";
          if (files.length > 0) onFiles(files);
        }}
      />
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
