import { useRef, useState } from "react";
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
          {compact ? "Bring in other files" : "Bring in a log"}
        </button>
        <span className="file-picker-hint">Or drop files anywhere on this page, or paste a table. Several files become one record.</span>
      </p>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        aria-label="Log files to bring in"
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
    <Disclosure summary="Paste a table as text">
      <label htmlFor="pasted-table">Rows with their headings, as copied from a spreadsheet or a text file</label>
      <textarea id="pasted-table" rows={6} spellCheck={false} value={text} onChange={(event) => setText(event.target.value)} />
      <p>
        <button type="button" disabled={file === null} onClick={() => file !== null && onFiles([file])}>
          Read what I pasted
        </button>
      </p>
    </Disclosure>
  );
}
