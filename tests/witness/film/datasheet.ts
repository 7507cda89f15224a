/** What the maker of an invented stock would publish: densities, curves, and the numbers a recipe needs. */
import type { Matrix, Triple } from "../spectra/colour.ts";
import { baseDensity, publishedDensity } from "./emulsion.ts";
import type { Camera, Light } from "../camera/cameras.ts";
import { fitColour, type ColourFit } from "./fit.ts";
import { cameraDensity } from "../camera/negative.ts";
import type { Stock } from "./stocks.ts";

export interface DataSheet {
  readonly name: string;
  readonly film: Stock["film"];
  /** ISO 5-3 status densities of the base: Status M of negatives, Status A of slides. */
  readonly statusBase: Triple;
  /** Density of the base as the camera sees it under the light: what a recipe's `base` says. */
  readonly base: Triple;
  /** Slope of the straight part per channel. */
  readonly gamma: Triple;
  /** Characteristic curve: status densities against log10 exposure, 0 at mid-grey. Undefined for slides. */
  readonly curve?: { logH: number[]; red: number[]; green: number[]; blue: number[]; mid: number };
  /** Camera densities above base to status densities above base. */
  readonly unmix: Matrix;
  /** Layer exposures (slides: camera transmittances) to linear sRGB; rows sum to 1. */
  readonly colour: Matrix;
  /** What the two matrices leave over, in CIELAB units on the training colours. */
  readonly residual: { mean: number; worst: number; grey: number };
}

/** Closer together where the curve bends. */
// oxfmt-ignore
const LOG_H = [-2.6, -2, -1.8, -1.65, -1.5, -1.4, -1.3, -1.2, -1.1, -1, -0.85, -0.6, -0.3, 0, 0.5, 1, 1.4, 1.7, 1.9, 2.1, 2.3, 2.5, 2.7, 3, 3.4];

export function dataSheet(stock: Stock, camera: Camera, light: Light): DataSheet {
  const statusBase = baseDensity(stock);
  const layer = (k: number): number => Math.min(k, stock.layers.length - 1);
  const column = (k: number): number[] =>
    LOG_H.map((h) => Number((statusBase[k] + publishedDensity(stock, layer(k), h)).toFixed(4)));
  const fit: ColourFit = fitColour(stock, camera, light);
  return {
    name: stock.name,
    film: stock.film,
    statusBase,
    base: cameraDensity(
      camera,
      light,
      stock,
      stock.layers.map(() => 0),
    ),
    gamma: [0, 1, 2].map((k) => stock.layers[layer(k)].curve.gamma) as Triple,
    curve:
      stock.film === "slide"
        ? undefined
        : { logH: [...LOG_H], red: column(0), green: column(1), blue: column(2), mid: 0 },
    ...fit,
  };
}
