import type { ColourToken } from "../../charts/palette";

/** A bit of a line as it is drawn, beside its name. */
export function LineSample({ hue, dash }: { readonly hue: ColourToken; readonly dash: readonly number[] }) {
  return (
    <svg className="line-sample" width="26" height="8" aria-hidden="true">
      <line x1="0" x2="26" y1="4" y2="4" stroke={`var(--${hue})`} strokeWidth="2" strokeDasharray={dash.join(" ")} />
    </svg>
  );
}
