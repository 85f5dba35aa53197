import { useEffect, useRef, useState } from "react";
import { PICKER_WORDS } from "../../../shared/wording/bring-in";
import type { PickedFile } from "../../worker/messages";
import { filesOfTransfer, isTyping, pickedFiles } from "./picked-files";
import "./bring-in.css";

type Props = { readonly onFiles: (files: readonly PickedFile[]) => void };

/** Always in reach: a log picked from the page's head, dropped anywhere on the page, or pasted outside a field. */
export function BringInAnywhere({ onFiles }: Props) {
  const input = useRef<HTMLInputElement>(null);
  const isDropping = useTransferOnPage(onFiles);
  return (
    <>
      <button type="button" onClick={() => input.current?.click()}>
        {PICKER_WORDS.bringIn}
      </button>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        aria-label={PICKER_WORDS.anyFiles}
        onChange={(event) => {
          const files = pickedFiles(event.target.files ?? []);
          event.target.value = "";
          if (files.length > 0) onFiles(files);
        }}
      />
      {isDropping ? <p className="drop-veil">{PICKER_WORDS.letGo}</p> : null}
    </>
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
