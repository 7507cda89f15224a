/** Everything that the survey measures on one scan of film. */
import type { LightSetup } from "../flat-field/transmittance.ts";
import type { Area, Film, LinearScan, ScanInfo } from "../types.ts";
import { findPerforations, PITCH_MM } from "../detect/perforations/perforations.ts";
import { insideOf, readBorder } from "./border.ts";
import { readExposure } from "./exposure-reading.ts";
import { type FilmPlane, filmPlane, type PixelBox } from "../flat-field/film-plane.ts";
import { seenGrain, unblurredGrain } from "./sharpness/fine-grain.ts";
import { grainBlur } from "./sharpness/grain-blur.ts";
import { BLOCK, blockAt, type GrainPlane, grainSpectrum, type NoiseModel } from "./sharpness/grain-spectrum.ts";
import { LATERAL_GRIDS, readLateralColour } from "../lens/lateral-colour.ts";
import { readLettering } from "./lettering.ts";
import { candidatesOf } from "../dust/candidates.ts";
import { evidenceOfDust } from "../dust/classify.ts";
import { type FlareKnown, flareKnown } from "../dust/flare.ts";
import { spotsOf } from "../dust/specks.ts";
import { mean, quantile } from "../math/statistics.ts";
import type { BlurCell, Box, ScanReading, SensorNoise, Speck } from "./types.ts";

export interface ScanToMeasure {
  readonly name: string;
  readonly frame?: string;
  readonly info: ScanInfo;
  readonly area: Area;
  readonly film: Film;
  readonly light: LightSetup;
  /** The scan under this light, where the caller has it already. */
  readonly plane?: FilmPlane;
  /** Whether the recipe mirrors the frame: then its lettering must read mirrored in the scan. */
  readonly mirror?: boolean;
  /** The blank's noise; without it noise is not taken off grain. */
  readonly noise?: SensorNoise;
  /** Whether other frames lie on the scan: what is around the picture is then theirs as well, and tells nothing of this. */
  readonly shared?: boolean;
  /** Whether lateral colour is looked for; at the copy stand there is no time for it. */
  readonly lateral?: boolean;
}

/** Cells along each side. */
export const GRID = 5;

/** Measures a scan that was decoded at half size. */
export function measureScan(scan: LinearScan, request: ScanToMeasure): ScanReading {
  const { name, frame, info, area, film, light } = request;
  const plane = request.plane ?? filmPlane(scan, light);
  const inside = insideOf(plane, area, 0.006);
  const sensor = noiseModel(request);
  const grain: GrainPlane = { ...plane, channel: 1, flare: light.field ? (light.flare?.[1] ?? 0) : 0 };
  const border: ReturnType<typeof readBorder> = request.shared ? { rebate: [], edges: {} } : readBorder(plane, area);
  const { specks, flare: fromSpecks } = specksOf(
    scan,
    plane,
    inside,
    film,
    flareKnown(light.field && light.flare, border.mask),
  );
  const perforations = scaleByPerforations(plane, info);
  const lettering = readLettering(plane, area, frame);
  return {
    name,
    ...(frame === undefined ? {} : { frame }),
    info,
    area,
    // A little of the rebate belongs to it: where the base clips it cannot be read.
    ...readExposure(scan, insideOf(plane, area, -0.006)),
    ...(sensor ? shadowNoise(grain, inside, sensor) : {}),
    ...(request.lateral && scan.channels === 3
      ? { lateral: readLateralColour(plane, inside, LATERAL_GRIDS.survey) }
      : {}),
    cells: blurCells(grain, inside, kernelOf(info), sensor),
    ...border,
    ...(fromSpecks > 0 && !border.mask ? { flareFromSpecks: fromSpecks } : {}),
    specks,
    ...(perforations ? { perforations } : {}),
    ...(lettering === undefined ? {} : { lettering: request.mirror ? -lettering : lettering }),
  };
}

function scaleByPerforations(plane: FilmPlane, info: ScanInfo): ScanReading["perforations"] {
  const found = findPerforations(plane);
  if (!found) return undefined;
  const perMm = (found.pitch * info.width) / plane.width / PITCH_MM;
  return { perMm, deviation: (perMm * found.deviation) / found.pitch, holes: found.holes };
}

/** The sensor's noise in this scan. */
function noiseModel({ noise, light, info }: ScanToMeasure): NoiseModel | undefined {
  if (!noise || !light.field) return undefined;
  const level = light.field.mean[1] * light.ratio;
  const gain = noise.iso && info.iso ? info.iso / noise.iso : 1;
  return { noise, at: (signal) => (noise.variance * gain) / Math.max(1e-6, signal * level) };
}

/** Variance in pixels² of the half-size scan that demosaicing and halving add by themselves (see scans/raw/half.ts). */
function kernelOf({ mosaic }: ScanInfo): number {
  // Tents of 4 × 4 and 6 × 6 sites about a cell's middle, and the mean of 2 × 2 pixels.
  return mosaic === "bayer" ? 0.75 / 4 : mosaic === "xtrans" ? 1.5833 / 4 : 0.25 / 4;
}

function blurCells(plane: GrainPlane, box: PixelBox, kernel: number, sensor: NoiseModel | undefined): BlurCell[] {
  const { width, height } = plane;
  return Array.from({ length: GRID * GRID }, (_, i): BlurCell => {
    const across = (k: number): number => Math.round(box.x0 + ((box.x1 - box.x0) * k) / GRID);
    const down = (k: number): number => Math.round(box.y0 + ((box.y1 - box.y0) * k) / GRID);
    const [q, r] = [i % GRID, Math.floor(i / GRID)];
    const cell = { x0: across(q), x1: across(q + 1), y0: down(r), y1: down(r + 1) };
    const spectrum = grainSpectrum(plane, cell, sensor);
    const fit = spectrum && grainBlur(spectrum, kernel);
    const place = { x: (cell.x0 + cell.x1) / 2 / width, y: (cell.y0 + cell.y1) / 2 / height };
    const grain = fit ? unblurredGrain(fit.level, kernel, spectrum) : seenGrain(plane, cell, sensor);
    return { ...place, ...(fit ? { blur: fit.blur } : {}), ...(grain ? { grain } : {}) };
  });
}

/** Part of the blocks that counts as the film's densest tones. */
const DENSEST = 0.05;

/** Noise over grain where the film is densest: the picture's highlights on a negative. */
function shadowNoise(
  plane: GrainPlane,
  box: PixelBox,
  sensor: NoiseModel,
): Pick<ScanReading, "noiseOverGrain" | "densestAt"> {
  const places: { x: number; y: number; t: number }[] = [];
  for (let y = box.y0; y + BLOCK <= box.y1; y += BLOCK)
    for (let x = box.x0; x + BLOCK <= box.x1; x += BLOCK) {
      let t = 0;
      for (let k = 0; k < 16; k++)
        t += plane.data[((y + 4 + 8 * (k >> 2)) * plane.width + x + 4 + 8 * (k & 3)) * 3 + 1] / 16;
      places.push({ x, y, t });
    }
  const limit = quantile(
    places.map((p) => p.t),
    DENSEST,
  );
  // Grain is what is left of the noise in the middle frequencies, where neither picture nor blur weighs much.
  const dense = places
    .filter((p) => p.t <= limit)
    .flatMap((p) => {
      const block = blockAt(plane, p.x, p.y);
      return block ? [{ ...p, block }] : [];
    })
    .toSorted((a, b) => a.block.structure - b.block.structure);
  if (dense.length < 3) return {};
  const even = dense.slice(0, Math.max(3, dense.length >> 1));
  const added = mean(even.map((p) => sensor.at(p.block.signal))) * mean(sensor.noise.shape);
  const total = mean(even.map((p) => p.block.middle));
  const grain = Math.max(total - added, 0.02 * total);
  const at: Box = [even[0].x / plane.width, even[0].y / plane.height, BLOCK / plane.width, BLOCK / plane.height];
  return { noiseOverGrain: Math.sqrt(added / grain), densestAt: at };
}

function specksOf(
  scan: LinearScan,
  plane: FilmPlane,
  box: PixelBox,
  film: Film,
  known: FlareKnown,
): { specks: Speck[]; flare: number } {
  const { width } = scan;
  const candidates = candidatesOf(scan, plane, box);
  const { evidence, flare } = evidenceOfDust(candidates, film, known);
  const specks = candidates.map(({ measurements, ...blob }, i): Speck => ({
    x: blob.x / width,
    y: blob.y / width,
    radius: blob.radius / width,
    elongation: blob.elongation,
    opacity: -Math.expm1(measurements.depth),
    logOdds: evidence[i],
    spots: spotsOf(blob, width),
  }));
  return { specks, flare };
}
