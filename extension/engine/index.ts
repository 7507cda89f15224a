/**
 * The engine as a module of the npm package (`rollbook/engine`): densities, characteristic curves, the plan, colour
 * difference. Pure computation on numbers and typed arrays; nothing here reads files. Explained in docs/library.md.
 * Nothing within the project imports it.
 */
export type {
  Area,
  CurveTable,
  Film,
  FrameLook,
  LinearScan,
  Matrix3,
  OutputSpace,
  Raster,
  Rgb,
  ToneLook,
} from "./types.ts";
export { densityOf, MID_GREY, STOP, transmittanceOf } from "./colour/density.ts";
export { deltaE2000, deltaE76 } from "./colour/difference.ts";
export { type Lab, labOf, lightnessOf, luminanceOf, xyzOfLab } from "./colour/lab.ts";
export { type Spectrum, type Status, statusDensity, visualDensity } from "./colour/status.ts";
export { type FilmCurve, filmCurve } from "./film/characteristic-curve.ts";
export { evaluator, type Reading } from "./film/reference-pixel.ts";
export { type LightSetup, readTransmittance, type TransmittanceReader } from "./flat-field/transmittance.ts";
export { findOnScan, type FoundOnScan } from "./detect/index.ts";
export { compilePlan, type Plan } from "./plan/compile.ts";
export { runPlan, runPlan8 } from "./plan/run.ts";
