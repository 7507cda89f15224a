/** Scans of the witness as the decoder would give them, without a file in between. */
import { type LightField, makeLightField } from "../../../../extension/engine/flat-field/light-field.ts";
import type { LightSetup } from "../../../../extension/engine/flat-field/transmittance.ts";
import { relativeExposure } from "../../../../extension/engine/flat-field/exposure.ts";
import type { LinearScan } from "../../../../extension/engine/types.ts";
import { scanOfMosaic } from "../../../../extension/scans/raw/to-scan.ts";
import { photographFilm, type Scan, type ScanRequest } from "../../../witness/camera/camera.ts";
import { CAMERA_A, PANEL, type Camera, type Light } from "../../../witness/camera/cameras.ts";
import { develop, type DevelopOptions } from "../../../witness/film/film.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import type { Scene } from "../../../witness/scenes/scene.ts";
import { cfaChannels } from "../../../witness/camera/sensor.ts";
import { GOOD_SETUP, metered, type Exposure, type Placement, type Setup } from "../../../witness/camera/setup.ts";
import { NORTHLIGHT_400, type Stock } from "../../../witness/film/stocks.ts";

/** Errors are told in pixels of a scan of this size; most are made smaller, to be quick. */
export const SIZE = { width: 1500, height: 1000 };

export function linearOf(scan: Scan, half = false): LinearScan {
  const { width, height, mosaic, black, white } = scan;
  const camera = { cfa: scan.cfa } as Camera;
  return scanOfMosaic(
    {
      width,
      height,
      stride: width,
      left: 0,
      top: 0,
      data: mosaic,
      period: 2,
      colours: cfaChannels(camera),
      black,
      white,
      monochrome: false,
    },
    half,
  );
}

export const settingsOf = (e: Exposure) => ({ shutter: e.shutter[0] / e.shutter[1], aperture: e.aperture, iso: e.iso });

export interface Stand {
  readonly camera: Camera;
  readonly light: Light;
  readonly setup: Setup;
  readonly size: { width: number; height: number };
}

export const STAND: Stand = { camera: CAMERA_A, light: PANEL, setup: GOOD_SETUP, size: { width: 1200, height: 800 } };

interface Blank {
  readonly scan: LinearScan;
  readonly exposure: Exposure;
  readonly field: LightField;
}

const blanks = new Map<string, Blank>();

/** The blank of a stand, taken without the holder: made once for all stands that differ in the holder alone. */
export function blankOf(stand: Stand): Blank {
  const { camera, light } = stand;
  const setup = { ...stand.setup, opening: undefined };
  const key = JSON.stringify([camera.model, light.name, setup, stand.size]);
  let blank = blanks.get(key);
  if (!blank) {
    const exposure = metered(camera, light, setup, "bare light");
    const scan = linearOf(photographFilm({ ...stand, ...stand.size, film: "blank", exposure, setup }, 5));
    blanks.set(key, (blank = { scan, exposure, field: makeLightField(scan, settingsOf(exposure)) }));
  }
  return blank;
}

/** How to read a scan of the stand. */
export function lightOf(stand: Stand, exposure: Exposure): LightSetup {
  const { field, exposure: bare } = blankOf(stand);
  return { field, ratio: relativeExposure(settingsOf(exposure), settingsOf(bare)).ratio };
}

export interface Shot {
  readonly stand?: Stand;
  readonly stock?: Stock;
  readonly film?: Partial<DevelopOptions>;
  readonly placement?: Partial<Placement>;
  readonly request?: Partial<ScanRequest>;
  readonly seed?: number;
}

/** A scene on film, photographed. */
export function shoot(scene: Scene | "leader", shot: Shot = {}) {
  const { stand = STAND, stock = NORTHLIGHT_400, seed = 7 } = shot;
  const placement = { centre: [0.5, 0.5] as const, width: 0.91, tilt: 0, mirrored: false, ...shot.placement };
  const format = shot.film?.format ?? FORMAT_135;
  const film = develop(
    scene,
    stock,
    { format, frame: "12A", pixelsPerMm: (stand.size.width * placement.width) / format.picture[0], ...shot.film },
    seed,
  );
  const exposure = shot.request?.exposure ?? metered(stand.camera, stand.light, stand.setup, stock);
  const made = photographFilm({ ...stand, ...stand.size, film, exposure, placement, ...shot.request }, seed);
  return { made, scan: linearOf(made), light: lightOf(stand, exposure), exposure, truth: made.truth };
}
