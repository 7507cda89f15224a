/**
 * The colour matrix that a camera's maker would publish: XYZ to camera by least squares over surfaces in daylight
 * (DNG Specification 1.4, ColorMatrix under CalibrationIlluminant D65; its scale makes the greatest channel 1 in white).
 */
import type { Camera } from "./cameras.ts";
import { solve, type Matrix, type Triple } from "../spectra/colour.ts";
import { trainingColours } from "../film/fit.ts";
import { integral, type Spectrum } from "../spectra/spectrum.ts";
import { D65, OBSERVER } from "../spectra/tables.ts";

let surfaces: { reflectance: Spectrum; xyz: Triple }[] | undefined;

export function colourMatrixOf({ sensitivity }: Pick<Camera, "sensitivity">): Matrix {
  const luminance = integral(D65, OBSERVER[1]);
  surfaces ??= trainingColours().map(({ reflectance }) => ({
    reflectance,
    xyz: OBSERVER.map((o) => integral(o, D65, reflectance) / luminance) as Triple,
  }));
  const known = surfaces;
  const white = Math.max(...sensitivity.map((s) => integral(s, D65)));
  const normal = [0, 1, 2].map((i) => [0, 1, 2].map((j) => known.reduce((sum, s) => sum + s.xyz[i] * s.xyz[j], 0)));
  return sensitivity.map((s) => {
    const seen = known.map(({ reflectance }) => integral(s, D65, reflectance) / white);
    return solve(
      normal,
      [0, 1, 2].map((i) => known.reduce((sum, { xyz }, k) => sum + xyz[i] * seen[k], 0)),
    );
  }) as Matrix;
}
