/** Test targets: as scenes to be photographed on film, or as film to be laid on the light. */
import { labOfRgb, rgbOfReflectance, type Triple } from "../spectra/colour.ts";
import type { DevelopedFilm } from "../film/film.ts";
import type { FilmFormat } from "../film/format.ts";
import { evenScene, paint, type Scene, type SceneBox } from "./scene.ts";
import { flat, type Spectrum } from "../spectra/spectrum.ts";
import type { Stock } from "../film/stocks.ts";

/** A patch of a target and its true colour. */
export interface TargetPatch {
  readonly name: string;
  /** Fractions of the picture. */
  readonly box: SceneBox;
  /** Linear Rec.709 and CIELAB, both D65. */
  readonly rgb: Triple;
  readonly lab: Triple;
}

export interface Target {
  readonly scene: Scene;
  readonly patches: readonly TargetPatch[];
}

/** Neutral steps of 0.1 in log reflectance from 90 % down, left to right in rows of seven; around them 18 % grey. */
export function greyScale(width: number, height: number, steps = 21): Target {
  const surfaces = Array.from({ length: steps }, (_, k) => ({
    name: `step ${k + 1}`,
    reflectance: flat(0.9 * 10 ** (-0.1 * k)),
  }));
  return layOut(width, height, surfaces, 7, 0.18);
}

/** A chart of surfaces with known spectra (the 24 published patches: six in a row), on a dark card. */
export function chart(
  width: number,
  height: number,
  surfaces: readonly { name: string; reflectance: Spectrum }[],
): Target {
  return layOut(width, height, surfaces, 6, 0.045);
}

function layOut(
  width: number,
  height: number,
  surfaces: readonly { name: string; reflectance: Spectrum }[],
  across: number,
  card: number,
): Target {
  const down = Math.ceil(surfaces.length / across);
  const cell = Math.min((0.92 * width) / across, (0.92 * height) / down);
  const size = 0.84 * cell;
  const scene = evenScene(width, height, [card, card, card]);
  const patches = surfaces.map(({ name, reflectance }, i) => {
    const x = width / 2 + ((i % across) - across / 2 + 0.5) * cell;
    const y = height / 2 + (Math.floor(i / across) - down / 2 + 0.5) * cell;
    const box = {
      left: (x - size / 2) / width,
      top: (y - size / 2) / height,
      width: size / width,
      height: size / height,
    };
    const rgb = rgbOfReflectance(reflectance);
    paint(scene, box, rgb);
    return { name, box, rgb, lab: labOfRgb(rgb), reflectance };
  });
  return { scene: { ...scene, patches }, patches };
}

/** Neutral silver of an even base, for targets whose density is set and not exposed. */
const SILVER_TARGET: Stock = {
  name: "Silver target",
  film: "black-and-white-negative",
  status: "M",
  layers: [
    {
      dye: flat(1),
      sensitivity: flat(1),
      curve: { gamma: 1, foot: -1.27, head: 2.4, toe: 0.1, shoulder: 0.2 },
      granularity: 0.1,
    },
  ],
  base: flat(0.05),
  interlayer: [[0]],
  scatter: 0,
  cloud: 3,
};

export interface DensityStep {
  readonly box: SceneBox;
  /** Density of every channel, base included. */
  readonly density: number;
}

/** A film target with densities as `densityAt` says (base included; fractions of the picture), clear film around it. */
function silverFilm(
  format: FilmFormat,
  pixelsPerMm: number,
  densityAt: (u: number, v: number) => number,
): DevelopedFilm {
  const margin = Math.round(2 * pixelsPerMm);
  const [w, h] = format.picture.map((mm) => Math.round(mm * pixelsPerMm));
  const [width, height] = [w + 2 * margin, h + 2 * margin];
  const amounts = new Float32Array(width * height);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++)
      amounts[(y + margin) * width + x + margin] = densityAt((x + 0.5) / w, (y + 0.5) / h) - 0.05;
  return {
    stock: SILVER_TARGET,
    format,
    pixelsPerMm,
    width,
    height,
    picture: { left: margin, top: margin, width: w, height: h },
    amounts,
    holes: [],
    strip: [-1e6, 1e6],
  };
}

/** A 21-step wedge, 0.15 D a step from 0.05 to 3.05 (as the common wedges of that make-up have it, from memory). */
export function stepWedge(
  format: FilmFormat,
  pixelsPerMm: number,
): { film: DevelopedFilm; steps: readonly DensityStep[] } {
  const density = (k: number): number => 0.05 + 0.15 * k;
  const film = silverFilm(format, pixelsPerMm, (u) => density(Math.min(20, Math.floor(u * 21))));
  const steps = Array.from({ length: 21 }, (_, k) => ({
    box: { left: k / 21, top: 0, width: 1 / 21, height: 1 },
    density: density(k),
  }));
  return { film, steps };
}

/** A straight edge through the picture's middle, `angle` degrees clockwise from upright, dark on its left. */
export function slantedEdge(
  format: FilmFormat,
  pixelsPerMm: number,
  angle: number,
  densities: readonly [left: number, right: number] = [1.2, 0.3],
): DevelopedFilm {
  const [wide, high] = format.picture;
  const [cos, sin] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
  const light = densities.map((d) => 10 ** -d);
  // Area-exact to first order: the pixel is as wide across the edge as |cos| + |sin|, give or take its corners.
  const soft = (Math.abs(cos) + Math.abs(sin)) / pixelsPerMm;
  return silverFilm(format, pixelsPerMm, (u, v) => {
    const distance = (u - 0.5) * wide * cos + (v - 0.5) * high * sin;
    const right = Math.min(1, Math.max(0, 0.5 + distance / soft));
    return -Math.log10(light[0] + right * (light[1] - light[0]));
  });
}
