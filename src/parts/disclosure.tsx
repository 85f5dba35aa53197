import type { ReactNode } from "react";

type Props = {
  readonly summary: ReactNode;
  readonly children: ReactNode;
  readonly open?: boolean;
  readonly tone?: "quiet" | "plain";
  /** Hears of every opening and closing, by hand, find-in-page or print; with it the caller can open it too. */
  readonly onToggle?: (open: boolean) => void;
};

/** Something more to read, closed at first: the native element, so that find-in-page and the keyboard open it too. */
export function Disclosure({ summary, children, open = false, tone = "quiet", onToggle }: Props) {
  return (
    <details className={`disclosure disclosure-${tone}`} open={open} onToggle={(event) => onToggle?.(event.currentTarget.open)}>
      <summary>{summary}</summary>
      <div className="disclosure-body">{children}</div>
    </details>
  );
}
