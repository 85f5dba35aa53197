import { isCannotTell } from "../../../shared/findings/segment";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { LOOKS_WORDS } from "../../../shared/wording/closer-look";
import { hourByDay } from "../../charts/looks/hour-by-day";
import type { Visit } from "../../state/visit-state";

const MOST_DAYS = 62;

/** Starts by day and hour as a table: a number in each cell, darker where there are more. */
export function HourByDay({ visit, units }: { readonly visit: Visit; readonly units: UnitChoice }) {
  const { pump } = visit.analysis.segments;
  if (isCannotTell(pump)) return null;
  const rows = hourByDay(pump.runs, visit.outline.duration, visit.outline.clock);
  if (rows === null || rows.length < 2) return null;
  const shown = rows.slice(-MOST_DAYS);
  const most = shown.reduce((a, { starts }) => starts.reduce<number>((b, n) => Math.max(b, n ?? 0), a), 1);
  const dayName = new Intl.DateTimeFormat(units.locale ?? "en-GB", { weekday: "short", day: "numeric", month: "short", timeZone: "UTC" });
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keys
    <section className="hour-table" tabIndex={0} aria-label={LOOKS_WORDS.hourByDay}>
      <table className="small">
        <caption>
          {LOOKS_WORDS.hourByDay}
          {rows.length > MOST_DAYS ? LOOKS_WORDS.lastDays(MOST_DAYS) : ""}
        </caption>
        <thead>
          <tr>
            <th scope="col">{LOOKS_WORDS.day}</th>
            {Array.from({ length: 24 }, (_, h) => (
              <th key={String(h)} scope="col">
                {h}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.map(({ day, starts }) => (
            <tr key={day}>
              <th scope="row">{dayName.format(new Date(day * 1000))}</th>
              {starts.map((n, h) => (
                <td
                  key={`${day} ${String(h)}`}
                  style={{ "--share": `${n === null ? 0 : Math.round((45 * n) / most)}%` } as React.CSSProperties}
                >
                  {n === null ? "" : n === 0 ? "\u00b7" : n}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
