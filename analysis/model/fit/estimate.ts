import type { FittedParameter, ParameterId } from "../../../shared/findings/what-if";

const TWO_SIDED_95 = 1.959963984540054; // normal quantile at 0.975

/** From a value and the standard deviation of its logarithm. */
export const inLog = (
  id: ParameterId,
  value: number,
  sd: number,
  from: FittedParameter["from"],
  reach = TWO_SIDED_95,
): FittedParameter => ({
  id,
  value,
  low: value * Math.exp(-reach * sd),
  high: value * Math.exp(reach * sd),
  scale: "log",
  from,
});

/** From a value and its standard deviation. */
export const onLine = (
  id: ParameterId,
  value: number,
  sd: number,
  from: FittedParameter["from"],
  reach = TWO_SIDED_95,
): FittedParameter => ({
  id,
  value,
  low: value - reach * sd,
  high: value + reach * sd,
  scale: "linear",
  from,
});

/** A value drawn from the spread, z standard normal. */
export function drawn(parameter: FittedParameter, z: number): number {
  const side = z < 0 ? parameter.low : parameter.high;
  if (parameter.scale === "linear") return parameter.value + (Math.abs(z) / TWO_SIDED_95) * (side - parameter.value);
  return parameter.value * (side / parameter.value) ** (Math.abs(z) / TWO_SIDED_95);
}

/** Half the 95 % interval in standard deviations of the normal: 1.96. */
export const REACH = TWO_SIDED_95;

/** Two independent statements of one parameter as one, each weighed by its certainty on the logarithm; the origin is that of the surer. */
export function combined(a: FittedParameter, b: FittedParameter): FittedParameter {
  const of = (p: FittedParameter) => ({ centre: Math.log(p.value), weight: (Math.log(p.high / p.low) / 2 / TWO_SIDED_95) ** -2 });
  const [one, other] = [of(a), of(b)];
  const weight = one.weight + other.weight;
  const centre = (one.centre * one.weight + other.centre * other.weight) / weight;
  return inLog(a.id, Math.exp(centre), weight ** -0.5, one.weight >= other.weight ? a.from : b.from);
}

/** The interval with one more spread: a standard deviation of the logarithm, or of the value itself, for what the model's form may be wrong by. */
export function widened(parameter: FittedParameter, by: number): FittedParameter {
  const { value, low, high } = parameter;
  const reach = TWO_SIDED_95 * by;
  if (parameter.scale === "linear")
    return { ...parameter, low: value - Math.hypot(value - low, reach), high: value + Math.hypot(high - value, reach) };
  return {
    ...parameter,
    low: value * Math.exp(-Math.hypot(Math.log(value / low), reach)),
    high: value * Math.exp(Math.hypot(Math.log(high / value), reach)),
  };
}
