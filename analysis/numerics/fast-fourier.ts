import FFT from "fft.js";

/** A transform of one size with its tables and its working arrays, made once and used again. */
export type FourierPlan = {
  readonly size: number;
  /** Interleaved complex bins 0 .. size/2 of real input, shape [size + 2]; the array is the plan's own and is overwritten by the next call. */
  forwardReal(values: Float64Array, count?: number): Float64Array;
  /** Real part of the inverse of a spectrum that is real and even, given as bins 0 .. size/2, shape [size/2 + 1] -> [size]; own array as above. */
  inverseEven(power: Float64Array): Float64Array;
};

const plans = new Map<number, FourierPlan>();

/** The plan of a size, a power of two from 4 on. @throws RangeError otherwise */
export function fourierPlan(size: number): FourierPlan {
  let plan = plans.get(size);
  if (plan === undefined) {
    plan = makePlan(size);
    plans.set(size, plan);
  }
  return plan;
}

/** The least power of two not below n (4 at least). */
export function powerOfTwoAtLeast(n: number): number {
  let size = 4;
  while (size < n) size *= 2;
  return size;
}

function makePlan(size: number): FourierPlan {
  if (size < 4 || (size & (size - 1)) !== 0) throw new RangeError(`fourierPlan: size ${size} is no power of two from 4 on`);
  const fft = new FFT(size);
  const input = new Float64Array(size);
  const output = new Float64Array(2 * size);
  const evenIn = new Float64Array(size);
  return {
    size,
    forwardReal(values, count = values.length) {
      if (count > size) throw new RangeError(`forwardReal: ${count} values for size ${size}`);
      for (let i = 0; i < count; i++) input[i] = values[i];
      input.fill(0, count);
      fft.realTransform(output, input);
      return output.subarray(0, size + 2);
    },
    inverseEven(power) {
      // A real even sequence transforms to a real even one, so that the forward transform serves as the inverse.
      const half = size / 2;
      for (let k = 0; k <= half; k++) evenIn[k] = power[k];
      for (let k = 1; k < half; k++) evenIn[size - k] = power[k];
      fft.realTransform(output, evenIn);
      const result = new Float64Array(size);
      for (let k = 0; k <= half; k++) result[k] = output[2 * k] / size;
      for (let k = 1; k < half; k++) result[size - k] = result[k];
      return result;
    },
  };
}
