import { useRef, useState } from "react";
import { formatQuantity } from "../../../shared/units/format-quantity";
import { US_UNITS } from "../../../shared/units/unit-choice";
import { daysSince, type RoundRow, sayAttention, sayChange } from "./round-rows";
import { SmallTrace } from "./small-trace";
import { visibleRows } from "./visible-rows";

/** Height of a row, px: fixed, so that a long list knows where each row stands. */
const ROW = 84;
const FIRST_HEIGHT = 900;

type TableProps = { readonly rows: readonly RoundRow[]; readonly now: number; readonly onOpen: (id: string) => void };

/** One row a site. Only rows in sight are in the page. */
export function RoundTable({ rows, now, onOpen }: TableProps) {
  const [scrolled, setScrolled] = useState(0);
  const frame = useRef<HTMLElement>(null);
  const { from, to } = visibleRows(rows.length, ROW, scrolled, frame.current?.clientHeight ?? FIRST_HEIGHT);
  return (
    <section className="round-frame" ref={frame} aria-label="Sites" onScroll={({ currentTarget }) => setScrolled(currentTarget.scrollTop)}>
      <table aria-rowcount={rows.length + 1}>
        <thead>
          <tr>
            {["Site", "Why it needs attention", "Against the visit before", "Likeliest cause", "Last record"].map((title) => (
              <th key={title} scope="col">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {from > 0 && <Gap height={from * ROW} />}
          {rows.slice(from, to).map((row, i) => (
            <tr key={row.site} aria-rowindex={from + i + 2} className="round-row">
              <th scope="row">
                <span className="round-site">{row.site}</span>
                <SmallTrace trace={row.latest.trace} />
              </th>
              <td>
                <span className="round-words" title={sayAttention(row)}>
                  {sayAttention(row)}
                </span>
              </td>
              <td>{sayChange(row)}</td>
              <td>
                {row.cause === null ? "none named" : `${row.cause.name} (${formatQuantity(row.cause.confidence, "fraction", US_UNITS, 2)})`}
              </td>
              <td>
                {sayDays(daysSince(row, now))}
                {row.latest.isKept && (
                  <button type="button" onClick={() => onOpen(row.latest.key)}>
                    Open
                  </button>
                )}
              </td>
            </tr>
          ))}
          {to < rows.length && <Gap height={(rows.length - to) * ROW} />}
        </tbody>
      </table>
    </section>
  );
}

const sayDays = (days: number | null): string =>
  days === null ? "no date" : days === 0 ? "today" : days === 1 ? "yesterday" : `${days} days ago`;

/** Stands for the rows out of sight. */
function Gap({ height }: { readonly height: number }) {
  return (
    <tr>
      <td colSpan={5} style={{ height }} />
    </tr>
  );
}
