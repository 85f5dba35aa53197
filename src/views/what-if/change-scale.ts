import { CHANGE_KINDS, type Change, type ChangeId, type FittedParameter, type ParameterId } from "../../../shared/findings/what-if";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { scaleOf } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { CHANGE_NAMES } from "../../../shared/wording/what-if";

/** How far one thing can be moved, SI, and where it stands now. "log": each step is a ratio. */
export type ChangeScale = {
  readonly id: ChangeId;
  readonly now: number;
  readonly low: number;
  readonly high: number;
  readonly spacing: "linear" | "log";
};

/** The sliders in groups, in the order in which one would try: what is cheapest to change on site first. */
export const CHANGE_GROUPS: readonly { readonly id: "tank" | "control" | "sensor" | "losses"; readonly changes: readonly ChangeId[] }[] = [
  { id: "tank", changes: ["precharge", "tank-volume"] },
  { id: "control", changes: ["set-pressure", "restart-pressure", "sleep-delay", "gain", "integral-time"] },
  { id: "sensor", changes: ["sensor-distance", "pipe-bore"] },
  { id: "losses", changes: ["leak"] },
];

type Parameters = Readonly<Record<ParameterId, FittedParameter>>;

/** Where everything stands, by the fitted model, and how far it can sensibly be moved. A bore that nobody gave cannot be moved. */
export function changeScales(parameters: Parameters, site: SiteFacts): ReadonlyMap<ChangeId, ChangeScale> {
  const at = (id: ParameterId) => parameters[id].value;
  const precharge = at("gas-constant") / at("tank-volume") - site.atmosphere.value;
  const set = at("set-pressure");
  const volume = at("tank-volume");
  const around = (id: ChangeId, now: number, times: number): ChangeScale => ({
    id,
    now,
    low: now / times,
    high: now * times,
    spacing: "log",
  });
  const upTo = (id: ChangeId, now: number, high: number): ChangeScale => ({ id, now, low: 0, high, spacing: "linear" });
  const bore = site.pipeInsideDiameter?.value ?? null;
  const scales: readonly ChangeScale[] = [
    upTo("precharge", Math.max(0, precharge), Math.max(set, 1.2 * precharge)),
    around("tank-volume", volume, 8),
    { id: "set-pressure", now: set, low: 0.6 * set, high: 1.4 * set, spacing: "linear" },
    { id: "restart-pressure", now: at("restart-pressure"), low: 0.5 * set, high: set, spacing: "linear" },
    upTo("sleep-delay", at("sleep-delay"), Math.max(180, 3 * at("sleep-delay"))),
    around("gain", 1, 10),
    around("integral-time", at("integral-time"), 10),
    upTo("sensor-distance", at("sensor-distance"), Math.max(15, 2 * at("sensor-distance"))),
    ...(bore === null ? [] : [around("pipe-bore", bore, 3)]),
    upTo("leak", at("system-leak") + at("back-leak"), Math.max(1e-4, 3 * (at("system-leak") + at("back-leak")))),
  ];
  return new Map(scales.map((scale) => [scale.id, scale]));
}

/** Steps from one end of a slider to the other. */
export const SLIDER_STEPS = 200;

/** Where a value stands on its slider, 0 to SLIDER_STEPS; values beyond its ends stand at them. */
export function positionOf({ low, high, spacing }: ChangeScale, value: number): number {
  const share = spacing === "log" ? Math.log(value / low) / Math.log(high / low) : (value - low) / (high - low);
  return Math.round(SLIDER_STEPS * Math.min(1, Math.max(0, share)));
}

/** The value at a position, SI, rounded as a person would write it in the unit shown: three digits at most. */
export function valueAtPosition(scale: ChangeScale, position: number, units: UnitChoice): number {
  const { id, low, high, spacing } = scale;
  const share = position / SLIDER_STEPS;
  const exact = spacing === "log" ? low * (high / low) ** share : low + share * (high - low);
  const { toShown, toSI } = CHANGE_KINDS[id] === "ratio" ? PLAIN : scaleOf(CHANGE_NAMES[id].shown, units);
  return toSI(rounded(toShown(exact), Math.abs(toShown(high) - toShown(low))));
}

const PLAIN = { toShown: (v: number) => v, toSI: (v: number) => v };

/** Rounded to a 1, 2 or 5 that lies below a two-hundredth of the range, and below a fiftieth of the value where the range is far greater. */
function rounded(value: number, range: number): number {
  const wanted = Math.min(range / SLIDER_STEPS, Math.abs(value) / 50 || range / SLIDER_STEPS);
  const power = 10 ** Math.floor(Math.log10(wanted));
  const step = [5, 2, 1].map((m) => m * power).find((own) => own <= wanted * (1 + 1e-9)) ?? power;
  return Number((Math.round(value / step) * step).toPrecision(6));
}

/** Changes as a list, in the order of the sliders, without those that change nothing. */
export const changesOf = (moved: ReadonlyMap<ChangeId, number>): readonly Change[] =>
  CHANGE_GROUPS.flatMap(({ changes }) =>
    changes.flatMap((id) => {
      const to = moved.get(id);
      return to === undefined ? [] : [{ id, to }];
    }),
  );
