import { useEffect, useRef, useState } from "react";
import type { PickedFile } from "../../worker/messages";
import { filesOfTransfer, isTyping } from "./picked-files";

/** Takes what is dropped anywhere on the page, or pasted outside a field. @returns whether something is held over it */
export function useFilesOnPage(onFiles: (files: readonly PickedFile[]) => void): boolean {
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
