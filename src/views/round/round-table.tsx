import { useEffect, useRef, useState } from "react";
import { flushSync } from "react-dom";
import { formatQuantity } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { ROUND_WORDS } from "../../../shared/wording/round";
import type { RoundEntry } from "./round-entry";
import { causeName, daysSince, type RoundRow, sayAcceptance, sayChange } from "./round-rows";
import { SmallTrace } from "./small-trace";
import { visibleRows } from "./visible-rows";

/** Height of a row, px: fixed, so that a long list knows where each row stands. */
const ROW = 96;
const FIRST_HEIGHT = 900;

type TableProps = {
  readonly rows: readonly RoundRow[];
  readonly now: number;
  readonly units: UnitChoice;
  readonly onOpen: (entry: RoundEntry) => void;
};

/** One row a site. Only rows in sight are in the page; on paper all of them. */
export function RoundTable({ rows, now, units, onOpen }: TableProps) {
  const [scrolled, setScrolled] = useState(0);
  const isPrinting = useIsPrinting();
  const frame = useRef<HTMLElement>(null);
  const inSight = visibleRows(rows.length, ROW, scrolled, frame.current?.clientHeight ?? FIRST_HEIGHT);
  const { from, to } = isPrinting ? { from: 0, to: rows.length } : inSight;
  return (
    <section
      className="round-frame"
      ref={frame}
      aria-label={ROUND_WORDS.table}
      onScroll={({ currentTarget }) => setScrolled(currentTarget.scrollTop)}
    >
      <table aria-rowcount={rows.length + 1}>
        <thead>
          <tr>
            {ROUND_WORDS.heads.map((title) => (
              <th key={title} scope="col">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {from > 0 && <Gap height={from * ROW} />}
          {rows.slice(from, to).map((row, i) => (
            <Row key={row.site} row={row} index={from + i + 2} now={now} units={units} onOpen={onOpen} />
          ))}
          {to < rows.length && <Gap height={(rows.length - to) * ROW} />}
        </tbody>
      </table>
    </section>
  );
}

type RowProps = Omit<TableProps, "rows"> & { readonly row: RoundRow; readonly index: number };

function Row({ row, index, now, units, onOpen }: RowProps) {
  const { latest } = row;
  const cause = causeName(row);
  return (
    <tr aria-rowindex={index} className="round-row">
      <th scope="row">
        <span className="round-site">
          <bdi>{row.site}</bdi>
        </span>
        <SmallTrace path={latest.digest.trace} />
      </th>
      <td>
        <span className="round-words" title={row.why}>
          {row.why}
        </span>
        <span className="soft">{sayAcceptance(row)}</span>
      </td>
      <td>
        {sayChange(row)}
        <Trend broken={row.trend.broken} />
      </td>
      <td>
        {cause === null || latest.digest.cause === null
          ? ROUND_WORDS.noCause
          : `${cause} (${formatQuantity(latest.digest.cause.confidence, "fraction", units, 2)})`}
      </td>
      <td>
        {ROUND_WORDS.daysAgo(daysSince(row, now))}
        {(latest.isKept || latest.file !== null) && (
          <button type="button" aria-label={ROUND_WORDS.openSite(row.site)} onClick={() => onOpen(latest)}>
            {ROUND_WORDS.open}
          </button>
        )}
      </td>
    </tr>
  );
}

const [BAR, TALL] = [10, 18];

/** Limits broken at each visit, oldest first, as bars; the numbers are said for those who cannot see them. */
function Trend({ broken }: { readonly broken: readonly number[] }) {
  if (broken.length < 2) return null;
  const most = broken.reduce((a, b) => Math.max(a, b), 1);
  return (
    <svg
      className="small-bars"
      viewBox={`0 0 ${broken.length * BAR} ${TALL}`}
      width={broken.length * BAR}
      height={TALL}
      role="img"
      aria-label={ROUND_WORDS.trend(broken)}
    >
      {broken.map((n, i) => {
        const height = Math.max(1, (n / most) * (TALL - 1));
        // biome-ignore lint/suspicious/noArrayIndexKey: a bar is its place among the visits
        return <rect key={i} x={i * BAR + 1} width={BAR - 3} y={TALL - height} height={height} />;
      })}
    </svg>
  );
}

/** True from the moment the browser lays the page out for paper until it is done. */
function useIsPrinting(): boolean {
  const [isPrinting, setPrinting] = useState(false);
  useEffect(() => {
    // Laid out at once: the browser does not wait for a later drawing.
    const begin = () => flushSync(() => setPrinting(true));
    const end = () => setPrinting(false);
    window.addEventListener("beforeprint", begin);
    window.addEventListener("afterprint", end);
    return () => {
      window.removeEventListener("beforeprint", begin);
      window.removeEventListener("afterprint", end);
    };
  }, []);
  return isPrinting;
}

/** Stands for the rows out of sight. */
function Gap({ height }: { readonly height: number }) {
  return (
    <tr>
      <td colSpan={ROUND_WORDS.heads.length} style={{ height }} />
    </tr>
  );
}
