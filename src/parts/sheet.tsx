import { type ReactNode, useEffect, useRef } from "react";
import { PAGE_WORDS } from "../../shared/wording/page";
import "./sheet.css";

type SheetProps = {
  readonly title: string;
  /** For tables: takes most of a wide window. */
  readonly isWide?: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
};

/** A sheet that slides over the page: a native dialog, so focus stays inside and Escape closes it. */
export function Sheet({ title, isWide = false, onClose, children }: SheetProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} className={isWide ? "sheet sheet-wide" : "sheet"} aria-labelledby="sheet-title" onClose={onClose}>
      <header className="sheet-head">
        <h2 id="sheet-title">{title}</h2>
        <button type="button" onClick={() => dialog.current?.close()}>
          {PAGE_WORDS.close}
        </button>
      </header>
      <div className="sheet-body">{children}</div>
    </dialog>
  );
}
