/** Published tables on the witness's wavelength grid. tests/unit/witness/tables.test.ts holds them to tests/reference. */
import type { Spectrum } from "./spectrum.ts";

const row = (...values: number[]): Spectrum => Float64Array.from(values);

/** CIE 1931 2° colour-matching functions, 400–700 nm, 10 nm. */
// oxfmt-ignore
export const OBSERVER: readonly [Spectrum, Spectrum, Spectrum] = [
  row(0.01431, 0.04351, 0.13438, 0.2839, 0.34828, 0.3362, 0.2908, 0.19536, 0.09564, 0.03201, 0.0049, 0.0093, 0.06327, 0.1655, 0.2904, 0.43345, 0.5945, 0.7621, 0.9163, 1.0263, 1.0622, 1.0026, 0.85445, 0.6424, 0.4479, 0.2835, 0.1649, 0.0874, 0.04677, 0.0227, 0.0113592),
  row(0.000396, 0.00121, 0.004, 0.0116, 0.023, 0.038, 0.06, 0.09098, 0.13902, 0.20802, 0.323, 0.503, 0.71, 0.862, 0.954, 0.99495, 0.995, 0.952, 0.87, 0.757, 0.631, 0.503, 0.381, 0.265, 0.175, 0.107, 0.061, 0.032, 0.017, 0.00821, 0.004102),
  row(0.06785, 0.2074, 0.6456, 1.3856, 1.74706, 1.77211, 1.6692, 1.28764, 0.81295, 0.46518, 0.272, 0.1582, 0.07825, 0.04216, 0.0203, 0.00875, 0.0039, 0.0021, 0.00165, 0.0011, 0.0008, 0.00034, 0.00019, 0.00005, 0.00002, 0, 0, 0, 0, 0, 0),
];

/** CIE standard illuminant D65, relative power. */
// oxfmt-ignore
export const D65: Spectrum = row(82.755, 91.486, 93.432, 86.682, 104.86, 117.01, 117.81, 114.86, 115.92, 108.81, 109.35, 107.8, 104.79, 107.69, 104.41, 104.05, 100, 96.334, 95.788, 88.686, 90.006, 89.599, 87.699, 83.289, 83.699, 80.027, 80.215, 82.278, 78.284, 69.721, 71.609);

/** CIE daylight D55: what a daylight film is balanced for. */
// oxfmt-ignore
export const D55: Spectrum = row(60.949, 68.554, 71.577, 67.914, 85.605, 97.993, 100.46, 99.913, 102.74, 98.078, 100.68, 100.69, 99.987, 104.21, 102.1, 102.97, 100, 97.216, 97.749, 91.432, 94.419, 95.14, 94.22, 90.448, 92.33, 88.854, 90.317, 93.95, 89.956, 79.677, 82.84);

/** CIE illuminant D50. */
// oxfmt-ignore
export const D50: Spectrum = row(49.308, 56.513, 60.034, 57.818, 74.825, 87.247, 90.612, 91.368, 95.109, 91.963, 95.724, 96.613, 97.129, 102.1, 100.75, 102.32, 100, 97.735, 98.918, 93.499, 97.688, 99.269, 99.042, 95.722, 98.857, 95.667, 98.19, 103, 99.133, 87.381, 91.604);

/** ISO 5-3 spectral products, log10 with peak 5, as printed; a missing end is below 10⁻³ of the peak and left out. */
const printed = (from: number, ...values: number[]): Spectrum => {
  const out = new Float64Array(31);
  for (const [i, v] of values.entries()) if (from + 10 * i <= 700) out[(from - 400) / 10 + i] = 10 ** (v - 5);
  return out;
};

/** Status M (negatives): red, green, blue. */
// oxfmt-ignore
export const STATUS_M: readonly [Spectrum, Spectrum, Spectrum] = [
  printed(620, 2.109, 4.479, 5, 4.899, 4.578, 4.252, 3.875, 3.491, 3.099),
  printed(470, 1.152, 2.207, 3.156, 3.804, 4.272, 4.626, 4.872, 5, 4.995, 4.818, 4.458, 3.915, 3.172, 2.239, 1.07),
  printed(410, 2.103, 4.111, 4.632, 4.871, 5, 4.955, 4.743, 4.343, 3.743, 2.99, 1.852),
];

/** Status A (slides and prints): red, green, blue. */
// oxfmt-ignore
export const STATUS_A: readonly [Spectrum, Spectrum, Spectrum] = [
  printed(600, 2.568, 4.638, 5, 4.871, 4.604, 4.286, 3.9, 3.551, 3.165, 2.776, 2.383),
  printed(500, 1.65, 3.822, 4.782, 5, 4.906, 4.644, 4.221, 3.609, 2.766, 1.579),
  printed(420, 3.602, 4.819, 5, 4.912, 4.62, 4.04, 2.989, 1.566, 0.165),
];
