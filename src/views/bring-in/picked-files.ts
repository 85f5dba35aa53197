import type { PickedFile } from "../../worker/messages";

/** Files as picked or dropped, under the names the person knows them by. */
export const pickedFiles = (files: Iterable<File>): readonly PickedFile[] => Array.from(files, (file) => ({ name: file.name, blob: file }));

/** Pasted text as a file; null where nothing but blanks was pasted. */
export function pastedFile(text: string): PickedFile | null {
  return text.trim() === "" ? null : { name: "pasted.txt", blob: new Blob([text], { type: "text/plain" }) };
}

/** What a drop or a paste holds: its files, else its text as one file. */
export function filesOfTransfer(transfer: DataTransfer | null): readonly PickedFile[] {
  if (transfer === null) return [];
  if (transfer.files.length > 0) return pickedFiles(transfer.files);
  const pasted = pastedFile(transfer.getData("text/plain"));
  return pasted === null ? [] : [pasted];
}

const WITHOUT_TEXT = ["checkbox", "radio", "range", "file", "button"];

/** Whether keys and pastes are meant for a field of text; a tick box or a slider has none. */
export function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLInputElement) return !WITHOUT_TEXT.includes(target.type);
  return target instanceof HTMLElement && (target.isContentEditable || target.tagName === "TEXTAREA");
}
