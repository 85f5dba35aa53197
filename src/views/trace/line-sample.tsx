import type { ColourToken } from "../../charts/palette";

type SampleProps = { readonly hue: ColourToken; readonly dash: readonly number[]; readonly points?: boolean };

/** A bit of a line, or some points, as they are drawn, beside their name. */
export function LineSample({ hue, dash, points = false }: SampleProps) {
  const stroke = `var(--${hue})`;
  return (
    <svg className="line-sample" width="26" height="8" aria-hidden="true">
      {points ? (
        [5, 13, 21].map((x) => <circle key={x} cx={x} cy="4" r="2.2" fill="none" stroke={stroke} />)
      ) : (
        <line x1="0" x2="26" y1="4" y2="4" stroke={stroke} strokeWidth="2" strokeDasharray={dash.join(" ")} />
      )}
    </svg>
  );
}
