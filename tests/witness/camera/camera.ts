/** Photographs film (or the bare light) on the copy stand: a raw mosaic, and the truth about it. */
import { blurGaussian, blurStroke, blurVarying, type Plane } from "../blur.ts";
import type { Camera, Cfa, Light } from "./cameras.ts";
import type { Triple } from "../spectra/colour.ts";
import { sensorDustShade, placeDust, type SensorDust, type Dust } from "../faults/dust.ts";
import type { DevelopedFilm } from "../film/film.ts";
import { illuminate } from "./illuminate.ts";
import { cameraDensity, transmittance, transmittanceAt } from "./negative.ts";
import { project, projection, projectThroughLens, type Projection } from "./project.ts";
import { cfaChannels, exposeSensor } from "./sensor.ts";
import { bareSignal, GOOD_PLACEMENT, type Exposure, type Placement, type Setup } from "./setup.ts";

export interface ScanRequest {
  readonly camera: Camera;
  readonly light: Light;
  readonly setup: Setup;
  /** A leader is film developed from "leader" (film.ts). */
  readonly film: DevelopedFilm | "blank";
  readonly exposure: Exposure;
  readonly placement?: Placement;
  /** Dust lying on the film. */
  readonly dust?: readonly Dust[];
  /** Pixels of the scan; both even. */
  readonly width: number;
  readonly height: number;
  /** 0 leaves photon and read noise out. */
  readonly noise?: number;
}

export interface ScanMeta {
  readonly make: string;
  readonly model: string;
  readonly lens: string;
  readonly shutter: readonly [number, number];
  readonly aperture: number;
  readonly iso: number;
}

export interface Scan {
  readonly mosaic: Uint16Array;
  readonly width: number;
  readonly height: number;
  readonly cfa: Cfa;
  readonly black: readonly [number, number, number, number];
  readonly white: number;
  readonly bits: number;
  readonly meta: ScanMeta;
  readonly truth: ScanTruth;
}

/** A place in the scan, in pixels; the first pixel's middle is 0.5. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** A thing on the film as the scan shows it, in pixels; a drawn outline's corners are the scan's, too. */
export interface DustTruth extends Place {
  readonly kind: Dust["kind"];
  readonly length: number;
  readonly opacity: number;
  readonly outline?: readonly (readonly [x: number, y: number])[];
}

/**
 * Computed from the model, never measured from what it made. Places of film are those that a lens without faults draws
 * (`Setup.lens` moves them), places of sensor dust the sensor's own.
 */
export interface ScanTruth {
  /** The picture as recipes write it: fractions of the scan and tilt in degrees. Undefined on a blank. */
  readonly area?: { left: number; top: number; width: number; height: number; tilt: number };
  readonly mirrored: boolean;
  /** Density of unexposed, developed film as this camera sees it under this light. Undefined on a blank. */
  readonly base?: Triple;
  /** Light added all over the scan, in fractions of the bare light in the middle of the field. */
  readonly flare: Triple;
  /** Fraction of saturation of the bare light in the middle of the field at this exposure. */
  readonly bare: Triple;
  /** Pixels of the scan per millimetre of film. */
  readonly pixelsPerMm?: number;
  readonly dust: readonly DustTruth[];
  readonly sensorDust: readonly (Place & { depth: number })[];
  /** Transmittance (red, green, blue) of the film at a place of the scan (pixels), without lens, flare and dust. */
  transmittanceAt(x: number, y: number): Triple;
  /** Scan pixels of a place in the picture, given in fractions of the picture. */
  placeOf(u: number, v: number): [x: number, y: number];
}

export function photographFilm(request: ScanRequest, seed: number): Scan {
  const { camera, light, setup, film, exposure, width, height } = request;
  if (width % 2 || height % 2) throw new Error(`A scan of ${width} × ${height} pixels: both must be even.`);
  const placement = request.placement ?? GOOD_PLACEMENT;
  const bare = bareSignal(camera, light, setup, exposure);
  const onFilm = film === "blank" ? undefined : projection(film, placement, width, height);
  const seen = onFilm && throughLens(request, film as DevelopedFilm, onFilm);
  const lit = illuminate(
    setup,
    { width, height, bare, channels: cfaChannels(camera), phase: seed % 97 },
    seen?.data,
    sensorDustShade(width, height, setup.sensorDust),
  );
  return {
    mosaic: exposeSensor(camera, lit.light, width, exposure.iso, request.noise ?? 1, seed),
    width,
    height,
    cfa: camera.cfa,
    black: camera.black,
    white: camera.white,
    bits: camera.bits,
    meta: { make: camera.make, model: camera.model, lens: camera.lens, ...exposure },
    truth: {
      area: onFilm?.area,
      mirrored: placement.mirrored,
      base:
        film === "blank"
          ? undefined
          : cameraDensity(
              camera,
              light,
              film.stock,
              film.stock.layers.map(() => 0),
            ),
      flare: lit.flare,
      bare,
      pixelsPerMm: onFilm && film !== "blank" ? film.pixelsPerMm / onFilm.ratio : undefined,
      dust: onFilm ? placed(request.dust ?? [], film as DevelopedFilm, onFilm) : [],
      sensorDust: setup.sensorDust.map((d: SensorDust) => ({
        x: d.x * width,
        y: d.y * width,
        radius: d.radius * width,
        depth: d.depth,
      })),
      transmittanceAt: (x, y) =>
        film === "blank" || !onFilm ? [1, 1, 1] : transmittanceAt(film, camera, light, onFilm.toFilm(x, y)),
      placeOf: (u, v) => {
        if (!onFilm || film === "blank") return [u * width, v * height];
        const { left, top, width: w, height: h } = film.picture;
        return onFilm.toScan(left + u * w, top + v * h);
      },
    },
  };
}

/** Dust, lens blur, sampling by the pixels, movement: the film's transmittance as it reaches the sensor. */
function throughLens(request: ScanRequest, film: DevelopedFilm, onFilm: Projection): Plane {
  const { corners, tilt } = request.setup.blur;
  let seen = sampled(request, film, onFilm);
  if (corners > 0 || tilt[0] !== 0 || tilt[1] !== 0) {
    const sigmaAt = (u: number, v: number): number => {
      const r2 = ((u - 0.5) ** 2 + (v - 0.5) ** 2) * 2;
      return Math.hypot(corners * r2, 2 * (tilt[0] * (u - 0.5) + tilt[1] * (v - 0.5)));
    };
    seen = blurVarying(seen, sigmaAt, Math.hypot(corners, Math.abs(tilt[0]) + Math.abs(tilt[1])));
  }
  return blurStroke(seen, request.setup.shake.length, request.setup.shake.angle);
}

/**
 * The last sampling of each film: of the faults of a copy stand few change it, and scans that differ in the others are
 * taken one after the other.
 */
const lastSampled = new WeakMap<DevelopedFilm, { key: string; seen: Plane }>();

/** The film as an evenly sharp lens and the pixels of the sensor see it. */
function sampled(request: ScanRequest, film: DevelopedFilm, onFilm: Projection): Plane {
  const { camera, light, setup, dust = [], placement = GOOD_PLACEMENT, width, height, exposure } = request;
  const sharpness = [setup.blur.everywhere, exposure.aperture];
  const key = JSON.stringify([
    camera.model,
    camera.sensor,
    light.name,
    sharpness,
    placement,
    dust,
    width,
    height,
    setup.lens,
  ]);
  const last = lastSampled.get(film);
  if (last?.key === key) return last.seen;
  const plane = transmittance(film, camera, light);
  const { picture } = film;
  const middle = [picture.left + picture.width / 2, picture.top + picture.height / 2] as const;
  placeDust(plane, dust, film.pixelsPerMm, middle);
  // Diffraction: the core of the Airy disc is close to a Gaussian of 0.42 λ N (from memory), N(1 + m) at the sensor.
  const pitch = camera.sensor / width;
  const magnification = (film.pixelsPerMm / onFilm.ratio) * pitch;
  const diffraction = (0.42 * 0.55e-3 * exposure.aperture * (1 + magnification)) / pitch;
  // The film raster already averages over its own pixels; the camera's pixels average over theirs.
  const variance = setup.blur.everywhere ** 2 + diffraction ** 2 + 1 / 12;
  blurGaussian(plane, Math.sqrt(Math.max(0, variance * onFilm.ratio ** 2 - 1 / 12)));
  const seen = setup.lens
    ? projectThroughLens(plane, onFilm, setup.lens, width, height)
    : project(plane, onFilm, width, height);
  lastSampled.set(film, { key, seen });
  return seen;
}

function placed(dust: readonly Dust[], film: DevelopedFilm, onFilm: Projection): ScanTruth["dust"] {
  const { picture, pixelsPerMm } = film;
  const scale = pixelsPerMm / onFilm.ratio;
  const onScan = (x: number, y: number): [number, number] =>
    onFilm.toScan(
      picture.left + picture.width / 2 + x * pixelsPerMm,
      picture.top + picture.height / 2 + y * pixelsPerMm,
    );
  return dust.map(({ kind, outline, ...d }) => {
    const [x, y] = onScan(d.x, d.y);
    const shown = { x, y, radius: d.radius * scale, kind, length: d.length * scale, opacity: d.opacity };
    return outline ? { ...shown, outline: outline.map(([u, v]) => onScan(d.x + u, d.y + v)) } : shown;
  });
}
