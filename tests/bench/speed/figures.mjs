export const quantile = (values, q) => values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(q * values.length))];
export const median = (values) => quantile(values, 0.5);
export const round = (value, digits = 0) => Number(value.toFixed(digits));
