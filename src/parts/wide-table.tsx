import type { ReactNode } from "react";
import "./wide-table.css";

type WideTableProps = { readonly heads: readonly string[]; readonly caption?: ReactNode; readonly children: ReactNode };

/** A table that scrolls sideways by itself where the page is narrow; the rows are its children. */
export function WideTable({ heads, caption, children }: WideTableProps) {
  return (
    <div className="wide-table">
      <table>
        {caption === undefined ? null : <caption>{caption}</caption>}
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  );
}
