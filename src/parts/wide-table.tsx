import type { ReactNode } from "react";
import "./wide-table.css";

type Row = { readonly key: string; readonly name: string; readonly cells: readonly ReactNode[] };
type WideTableProps = {
  /** Of the names of the rows, then of each cell. */
  readonly heads: readonly string[];
  readonly caption?: ReactNode;
  readonly rows: readonly Row[];
};

/** A table where the page is wide; on a phone each row stands by itself, every cell with its heading beside it, and nothing lies out of sight. */
export function WideTable({ heads, caption, rows }: WideTableProps) {
  return (
    <div className="wide-table row-by-row">
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
        <tbody>
          {rows.map(({ key, name, cells }) => (
            <tr key={key}>
              <th scope="row">{name}</th>
              {cells.map((cell, i) => (
                <td key={heads[i + 1]} data-head={heads[i + 1]}>
                  <span>{cell}</span>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
