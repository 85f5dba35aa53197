import { useEffect, useRef, useState } from "react";
import { Disclosure } from "../../parts/disclosure";
import type { PickedFile } from "../../worker/messages";
import { filesOfTransfer, isTyping, pastedFile, pickedFiles } from "./picked-files";

type Props = {
  readonly onFiles: (files: readonly PickedFile[]) => void;
  /** Fewer words where a record stands on the page already. */
  readonly compact?: boolean;
};

/** Drop, pick or paste one or several files. A drop or a paste counts anywhere on the page while this stands on it. */
export function FilePicker({ onFiles, compact = false }: Props) {
  const dropping = useTransferOnPage(onFiles);
  const input = useRef<HTMLInputElement>(null);
  return (
    <div className="file-picker" data-dropping={dropping}>
      <p className="button-row">
        <button type="button" className="button-main" onClick={() => input.current?.click()}>
          {compact ? "Bring in other files" : "Bring in a log"}
        </button>
        <span className="file-picker-hint">
          {dropping ? "Let go to bring it in." : "Or drop files anywhere on this page, or paste a table. Several files become one record."}
        </span>
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

/** Listens on the whole page; true while something is held over it. */
function useTransferOnPage(onFiles: Props["onFiles"]): boolean {
  const [dropping, setDropping] = useState(false);
  const take = useRef(onFiles);
  take.current = onFiles;
  useEffect(() => {
    const listening = new AbortController();
    const on = <K extends keyof DocumentEventMap>(kind: K, listener: (event: DocumentEventMap[K]) => void) =>
      document.addEventListener(kind, listener, { signal: listening.signal });
    on("dragover", (event) => {
      event.preventDefault();
      setDropping(true);
    });
    on("dragleave", (event) => {
      if (event.relatedTarget === null) setDropping(false);
    });
    on("drop", (event) => {
      event.preventDefault();
      setDropping(false);
      const files = filesOfTransfer(event.dataTransfer);
      if (files.length > 0) take.current(files);
    });
    on("paste", (event) => {
      const files = isTyping(event.target) ? [] : filesOfTransfer(event.clipboardData);
      if (files.length > 0) take.current(files);
    });
    return () => listening.abort();
  }, []);
  return dropping;
}
