import type { ReactNode } from "react";

type Props = { readonly summary: ReactNode; readonly children: ReactNode; readonly open?: boolean; readonly tone?: "quiet" | "plain" };

/** Something more to read, closed at first: the native element, so that find-in-page and the keyboard open it too. */
export function Disclosure({ summary, children, open = false, tone = "quiet" }: Props) {
  return (
    <details className={`disclosure disclosure-${tone}`} open={open}>
      <summary>{summary}</summary>
      <div className="disclosure-body">{children}</div>
    </details>
  );
}
