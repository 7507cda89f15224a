/** Exposes a scene on a stock and develops it: amounts of dye (or silver) over a piece of film. */
import { blurGaussian } from "../blur.ts";
import { atH } from "./curve.ts";
import { emulsionOf, type Emulsion } from "./emulsion.ts";
import type { FilmFormat } from "./format.ts";
import { addGrain } from "./grain.ts";
import { edgeCodeAt, type EdgeCodeOfFilm } from "./edge-code.ts";
import { textAt, textWidth } from "./marking.ts";
import { resized, type Patch, type Scene } from "../scenes/scene.ts";
import { integral } from "../spectra/spectrum.ts";
import type { Stock } from "./stocks.ts";
import { NODES } from "../spectra/upsample.ts";

export interface DevelopOptions {
  readonly format: FilmFormat;
  /** Stops more (+) or less (−) light than metered. */
  readonly exposure?: number;
  /** Frame name for the edge marking; without it the rebate is blank. */
  readonly frame?: string;
  /** Film that names itself along its lower edge; the numbers follow from `frame` ("20", "20A"). */
  readonly edgeCode?: EdgeCodeOfFilm;
  /** Film around the picture, mm to either side and above and below. */
  readonly margin?: readonly [across: number, down: number];
  /** Fineness of the film raster; the scene's own width by default. */
  readonly pixelsPerMm?: number;
  /** 0 leaves the grain out, 1 is the stock's own. */
  readonly grain?: number;
}

/** Rectangle in film pixels; edges may lie between pixels. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface DevelopedFilm {
  readonly stock: Stock;
  readonly format: FilmFormat;
  readonly pixelsPerMm: number;
  readonly width: number;
  readonly height: number;
  /** The picture (of a leader: where one would be). */
  readonly picture: Box;
  /** Interleaved amounts, one per layer and pixel; outside the film's edges or in its holes they mean nothing. */
  readonly amounts: Float32Array;
  /** Where there is no film: perforations, with the radius of their corners where it is not a fifth of their height. */
  readonly holes: readonly (Box & { readonly corner?: number })[];
  /** Rows between which the strip lies. */
  readonly strip: readonly [top: number, bottom: number];
}

const DEFAULT_MARGIN = [1.9, 1.9] as const;

/** Errors: a scene whose proportions are not the format's. */
export function develop(scene: Scene | "leader", stock: Stock, options: DevelopOptions, seed: number): DevelopedFilm {
  const { format } = options;
  const [wide, high] = format.picture;
  const margin = options.margin ?? DEFAULT_MARGIN;
  const fine = options.pixelsPerMm ?? (scene === "leader" ? 60 : scene.width / wide);
  const box = {
    left: Math.round(margin[0] * fine),
    top: Math.round(margin[1] * fine),
    width: Math.round(wide * fine),
    height: Math.round(high * fine),
  };
  const width = box.width + 2 * box.left;
  const height = box.height + 2 * box.top;
  const emulsion = emulsionOf(stock);
  const n = stock.layers.length;
  const exposures = new Float32Array(width * height * n);
  if (scene !== "leader") {
    if (Math.abs((scene.width / scene.height) * (high / wide) - 1) > 0.02)
      throw new Error(
        `The scene is ${scene.width} × ${scene.height}, but a ${format.name} picture is ${wide} × ${high} mm: give both the same proportions.`,
      );
    const factor = 2 ** (options.exposure ?? 0);
    expose(emulsion, resized(scene, box.width, box.height), factor, exposures, width, box);
    for (const patch of scene.patches ?? []) exposePatch(emulsion, patch, factor, exposures, width, box);
  }
  const film = { stock, format, pixelsPerMm: fine, width, height, picture: box };
  if (options.frame !== undefined) burnMarking(film, options.frame, exposures, n);
  if (options.edgeCode) burnEdgeCode(film, options.edgeCode, options.frame ?? "0", exposures, n);
  blurGaussian({ width, height, channels: n, data: exposures }, (stock.scatter * fine) / 1000);
  developInPlace(emulsion, exposures);
  addGrain(film, exposures, options.grain ?? 1, seed);
  const middle = box.top + box.height / 2;
  const strip = [middle - (format.strip / 2) * fine, middle + (format.strip / 2) * fine] as const;
  return { ...film, amounts: exposures, holes: perforations(format, fine, width, strip), strip };
}

/** Light of the scene on each layer: nodeMix() of upsample.ts written out, for a pixel costs ten times less so. */
function expose(e: Emulsion, scene: Scene, factor: number, out: Float32Array, width: number, box: Box): void {
  const n = e.responses.length;
  const { data } = scene;
  for (let y = 0, i = 0; y < box.height; y++) {
    let o = ((y + box.top) * width + box.left) * n;
    for (let x = 0; x < box.width; x++, i += 3, o += n) {
      const [r, g, b] = [data[i], data[i + 1], data[i + 2]];
      const face = r >= g && r >= b ? 0 : g >= b ? 1 : 2;
      const top = face === 0 ? r : face === 1 ? g : b;
      if (!(top > 0)) continue;
      const p = (face === 0 ? g : r) / top;
      const q = (face === 2 ? g : b) / top;
      const u = Math.sqrt(p > 0 ? p : 0) * (NODES - 1);
      const v = Math.sqrt(q > 0 ? q : 0) * (NODES - 1);
      const i0 = u < NODES - 2 ? u | 0 : NODES - 2;
      const j0 = v < NODES - 2 ? v | 0 : NODES - 2;
      const a = (u * u - i0 * i0) / (2 * i0 + 1);
      const c = (v * v - j0 * j0) / (2 * j0 + 1);
      const table = e.exposures[face];
      const at = (i0 * NODES + j0) * n;
      const next = at + NODES * n;
      const gain = factor * top;
      for (let k = 0; k < n; k++) {
        const near = table[at + k] + c * (table[at + n + k] - table[at + k]);
        const far = table[next + k] + c * (table[next + n + k] - table[next + k]);
        out[o + k] = gain * (near + a * (far - near));
      }
    }
  }
}

/** Light of a surface whose spectrum is known; its edges fall on whole pixels. */
function exposePatch(e: Emulsion, patch: Patch, factor: number, out: Float32Array, width: number, box: Box): void {
  const light = e.responses.map((r) => factor * integral(r, patch.reflectance));
  const x0 = box.left + Math.round(patch.box.left * box.width);
  const x1 = box.left + Math.round((patch.box.left + patch.box.width) * box.width);
  const y0 = box.top + Math.round(patch.box.top * box.height);
  const y1 = box.top + Math.round((patch.box.top + patch.box.height) * box.height);
  for (let y = y0; y < y1; y++) for (let x = x0; x < x1; x++) out.set(light, (y * width + x) * light.length);
}

/** Exposures become amounts: what developed() of emulsion.ts does, over a raster. */
function developInPlace(e: Emulsion, data: Float32Array): void {
  const n = e.amounts.length;
  const { development, amounts } = e;
  const k = e.stock.interlayer;
  if (n === 1) {
    for (let i = 0; i < data.length; i++) data[i] = atH(amounts[0], Math.log10(Math.max(data[i], 1e-9) / 0.18));
    return;
  }
  for (let i = 0; i < data.length; i += 3) {
    const r = Math.log10(Math.max(data[i], 1e-9) / 0.18);
    const g = Math.log10(Math.max(data[i + 1], 1e-9) / 0.18);
    const b = Math.log10(Math.max(data[i + 2], 1e-9) / 0.18);
    const dr = atH(development[0], r);
    const dg = atH(development[1], g);
    const db = atH(development[2], b);
    data[i] = atH(amounts[0], r + k[0][1] * (dr - dg) + k[0][2] * (dr - db));
    data[i + 1] = atH(amounts[1], g + k[1][0] * (dg - dr) + k[1][2] * (dg - db));
    data[i + 2] = atH(amounts[2], b + k[2][0] * (db - dr) + k[2][1] * (db - dg));
  }
}

type Unexposed = Omit<DevelopedFilm, "amounts" | "holes" | "strip">;

/** Stock name and frame number along the upper edge, the number again with a pointer along the lower one. */
function burnMarking(film: Unexposed, frame: string, out: Float32Array, n: number): void {
  const { format, pixelsPerMm, picture, width, height } = film;
  const letter = format.marking.height * pixelsPerMm;
  const middle = picture.top + picture.height / 2;
  const half = (format.strip / 2 - format.marking.fromEdge) * pixelsPerMm;
  const lines = [
    { text: film.stock.name, left: picture.left + picture.width * 0.06, top: middle - half },
    { text: frame, left: picture.left + picture.width * 0.62, top: middle - half },
    { text: `>${frame}`, left: picture.left + picture.width * 0.3, top: middle + half - letter },
  ];
  for (const { text, left, top } of lines)
    for (let y = Math.max(0, Math.floor(top)); y < Math.min(height, top + letter); y++)
      for (let x = Math.max(0, Math.floor(left)); x < Math.min(width, left + textWidth(text) * letter); x++)
        if (textAt(text, (x + 0.5 - left) / letter, (y + 0.5 - top) / letter))
          for (let k = 0; k < n; k++) out[(y * width + x) * n + k] = k === 2 ? 1.5 : 4;
}

/** The bars of the edge code along the lower edge. */
function burnEdgeCode(film: Unexposed, code: EdgeCodeOfFilm, frame: string, out: Float32Array, n: number): void {
  const { format, pixelsPerMm, picture, width, height } = film;
  const half = 2 * Number.parseInt(frame, 10) + (frame.endsWith("A") ? 1 : 0);
  const edge = picture.top + picture.height / 2 + (format.strip / 2) * pixelsPerMm;
  const middle = picture.left + picture.width / 2;
  for (let y = Math.max(0, Math.floor(edge - 3 * pixelsPerMm)); y < Math.min(height, edge); y++)
    for (let x = 0; x < width; x++)
      if (edgeCodeAt(code, half, (x + 0.5 - middle) / pixelsPerMm, (edge - y - 0.5) / pixelsPerMm))
        for (let k = 0; k < n; k++) out[(y * width + x) * n + k] = k === 2 ? 1.5 : 4;
}

function perforations(f: FilmFormat, fine: number, width: number, strip: readonly [number, number]): Box[] {
  const p = f.perforation;
  if (!p) return [];
  const holes: Box[] = [];
  const size = { width: p.along * fine, height: p.across * fine };
  // Holes lie symmetrically to the frame: eight pitches to a frame, its middle between two holes.
  for (let at = width / 2 + (p.pitch / 2) * fine; at < width + size.width; at += p.pitch * fine)
    for (const centre of [at, width - at])
      for (const top of [strip[0] + p.fromEdge * fine, strip[1] - p.fromEdge * fine - size.height])
        holes.push({ left: centre - size.width / 2, top, ...size });
  return holes;
}
