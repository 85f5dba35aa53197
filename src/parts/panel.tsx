import { type KeyboardEvent, type ReactNode, useLayoutEffect, useRef } from "react";
import { PAGE_WORDS } from "../../shared/wording/page";
import "./panel.css";

type PanelProps = { readonly title: string; readonly onClose: () => void; readonly children: ReactNode };

/** Stands beside the trace in the place of the story, which comes back where it was left: nothing is covered, nothing is blocked. */
export function Panel({ title, onClose, children }: PanelProps) {
  const place = useRef<HTMLElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  // Before anything else can move the focus on: a fact asked for by name is focused within a frame.
  useLayoutEffect(() => {
    const opener = document.activeElement;
    const scrolled = window.scrollY;
    heading.current?.focus({ preventScroll: true });
    place.current?.scrollIntoView({ block: "start" });
    return () => {
      window.scrollTo({ top: scrolled });
      if (opener instanceof HTMLElement && opener.isConnected) opener.focus({ preventScroll: true });
    };
  }, []);
  const press = (event: KeyboardEvent) => {
    // An open explanation takes the key first.
    if (event.key === "Escape" && document.querySelector(":popover-open") === null) onClose();
  };
  return (
    <section ref={place} className="story panel" role="dialog" aria-labelledby="panel-title" onKeyDown={press}>
      <header className="panel-head">
        <h2 id="panel-title" ref={heading} tabIndex={-1}>
          {title}
        </h2>
        <button type="button" onClick={onClose}>
          {PAGE_WORDS.backToStory}
        </button>
      </header>
      {children}
    </section>
  );
}
