/** The package ships no types. Arrays are interleaved complex numbers, length 2 * size; any array of numbers will do. */
declare module "fft.js" {
  export default class FFT {
    constructor(size: number);
    readonly size: number;
    realTransform(out: Float64Array, data: Float64Array): void;
    transform(out: Float64Array, data: Float64Array): void;
    inverseTransform(out: Float64Array, data: Float64Array): void;
    completeSpectrum(spectrum: Float64Array): void;
  }
}
