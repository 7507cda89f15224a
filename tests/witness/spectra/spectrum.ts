/** Spectra of the witness: 400 to 700 nm in steps of 10 nm, and the smooth shapes that its inventions are made of. */

/** One value per wavelength of the grid. */
export type Spectrum = Float64Array;

export const WAVELENGTHS: readonly number[] = Array.from({ length: 31 }, (_, i) => 400 + 10 * i);
export const BANDS = WAVELENGTHS.length;

export function spectrum(at: (nm: number) => number): Spectrum {
  const out = new Float64Array(BANDS);
  for (let i = 0; i < BANDS; i++) out[i] = at(WAVELENGTHS[i]);
  return out;
}

export function flat(value: number): Spectrum {
  return new Float64Array(BANDS).fill(value);
}

/** A bell with its own width (one sigma, nm) on either side. */
export function lobe(centre: number, left: number, right = left, height = 1): Spectrum {
  return spectrum((nm) => height * Math.exp(-0.5 * ((nm - centre) / (nm < centre ? left : right)) ** 2));
}

/** A smooth edge: 0 far below `at`, 1 far above; `width` is the logistic's scale in nm, negative for a falling edge. */
export function edge(at: number, width: number): Spectrum {
  return spectrum((nm) => 1 / (1 + Math.exp(-(nm - at) / width)));
}

export function sum(...parts: readonly Spectrum[]): Spectrum {
  return new Float64Array(BANDS).map((_, i) => parts.reduce((s, p) => s + p[i], 0));
}

export function product(first: Spectrum, ...others: readonly Spectrum[]): Spectrum {
  const out = Float64Array.from(first);
  for (const other of others) for (let i = 0; i < BANDS; i++) out[i] *= other[i];
  return out;
}

export function scaled(s: Spectrum, by: number): Spectrum {
  return s.map((v) => v * by);
}

/** Sum over wavelengths of the product. */
export function integral(first: Spectrum, ...others: readonly Spectrum[]): number {
  let total = 0;
  for (let i = 0; i < BANDS; i++) {
    let v = first[i];
    for (let k = 0; k < others.length; k++) v *= others[k][i];
    total += v;
  }
  return total;
}

/** −log10 of the weighted mean transmittance of a film whose spectral density is given. */
export function integralDensity(weights: Spectrum, density: Spectrum): number {
  return integralDensities([weights], density)[0];
}

/** The same under each of several weights. */
export function integralDensities(weights: readonly Spectrum[], density: Spectrum): number[] {
  const transmittance = density.map((d) => 10 ** -d);
  return weights.map((w) => {
    let through = 0;
    let all = 0;
    for (let i = 0; i < BANDS; i++) {
      through += w[i] * transmittance[i];
      all += w[i];
    }
    return -Math.log10(through / all);
  });
}
