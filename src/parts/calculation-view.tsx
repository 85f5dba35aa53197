import { type Calculation, sayOrigin } from "../../shared/wording/calculation";
import { FINDINGS_WORDS } from "../../shared/wording/story";

/** A calculation with the site's own numbers, as one would write it down: formula, what went in, what came out, place by place. */
export function CalculationView({ calculation }: { readonly calculation: Calculation }) {
  const { formula, lines, table } = calculation;
  return (
    <div className="calculation">
      {formula === null ? null : <p className="formula">{formula}</p>}
      {lines.length === 0 ? null : (
        <dl>
          {lines.map((line) => (
            <div key={line.what}>
              <dt>{line.what}</dt>
              <dd>
                <span className="figure">{line.value}</span> <span className="soft">{sayOrigin(line.from)}</span>
              </dd>
            </div>
          ))}
        </dl>
      )}
      {table === null ? null : <PlainTable {...table} />}
    </div>
  );
}

function PlainTable({ head, rows }: NonNullable<Calculation["table"]>) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by the keyboard
    <section className="wide-table" aria-label={FINDINGS_WORDS.placeByPlace} tabIndex={0}>
      <table className="plain-table">
        <thead>
          <tr>
            {head.map((title) => (
              <th key={title} scope="col">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.join("|")}>
              {row.map((cell, i) => (
                <td key={head[i]}>
                  <bdi>{cell}</bdi>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
