/** Photographs small pieces of film with the witness and measures them as the survey does. */
import { type LightField, makeLightField } from "../../../../extension/engine/flat-field/light-field.ts";
import { relativeExposure } from "../../../../extension/engine/flat-field/exposure.ts";
import { measureBlank } from "../../../../extension/engine/survey/measure-blank.ts";
import { measureScan } from "../../../../extension/engine/survey/measure-scan.ts";
import type { BlankReading, ScanReading, SurveyedRoll } from "../../../../extension/engine/survey/types.ts";
import type { LinearScan, Rgb, ScanInfo } from "../../../../extension/engine/types.ts";
import { scanOfMosaic } from "../../../../extension/scans/raw/to-scan.ts";
import { photographFilm, type Scan, type ScanRequest } from "../../../witness/camera/camera.ts";
import { CAMERA_A, PANEL, type Camera, type Light } from "../../../witness/camera/cameras.ts";
import { develop, type DevelopedFilm } from "../../../witness/film/film.ts";
import type { FilmFormat } from "../../../witness/film/format.ts";
import { cameraDensity } from "../../../witness/camera/negative.ts";
import { projection } from "../../../witness/camera/project.ts";
import { GOOD_PLACEMENT, GOOD_SETUP, metered } from "../../../witness/camera/setup.ts";
import { NORTHLIGHT_400, type Stock } from "../../../witness/film/stocks.ts";
import { SUBJECTS, type SubjectName } from "./subjects/subjects.ts";

/** A picture a quarter the size of 135: as many pixels a millimetre as a 24-megapixel camera gives that, in small scans. */
export const SMALL_FORMAT: FilmFormat = {
  name: "small",
  picture: [9, 6],
  strip: 8,
  marking: { height: 0.12, fromEdge: 0.86 },
};

export const [WIDTH, HEIGHT] = [1080, 720];
const FINE = 110;

export interface Rig {
  readonly camera: Camera;
  readonly light: Light;
  readonly stock: Stock;
}

export const RIG: Rig = { camera: CAMERA_A, light: PANEL, stock: NORTHLIGHT_400 };

const developed = new Map<string, DevelopedFilm>();

/** The film of a subject; each is developed once. */
export function filmOf(subject: SubjectName, stock: Stock, frame = "12"): DevelopedFilm {
  const key = `${subject} ${stock.name} ${frame}`;
  const known = developed.get(key);
  if (known) return known;
  const scene = SUBJECTS[subject](SMALL_FORMAT.picture[0] * FINE, SMALL_FORMAT.picture[1] * FINE);
  const made = develop(
    scene,
    stock,
    { format: SMALL_FORMAT, frame, margin: [1, 1], pixelsPerMm: FINE },
    7 + developed.size,
  );
  developed.set(key, made);
  return made;
}

export function request(rig: Rig, film: DevelopedFilm | "blank"): ScanRequest {
  const { camera, light, stock } = rig;
  const setup = { ...GOOD_SETUP, ...(film === "blank" ? { opening: undefined } : {}) };
  const exposure = metered(camera, light, setup, film === "blank" ? "bare light" : stock);
  return { camera, light, setup, film, exposure, placement: GOOD_PLACEMENT, width: WIDTH, height: HEIGHT };
}

export const COLOURS = { RGGB: [0, 1, 1, 2], BGGR: [2, 1, 1, 0], GRBG: [1, 0, 2, 1], GBRG: [1, 2, 0, 1] };

export interface DecodedScan {
  readonly scan: LinearScan;
  readonly info: ScanInfo;
}

/** What decoding at half size makes of a mosaic. */
export const halfScan = (scan: Scan): DecodedScan => decodedScan(scan, true);

/** What decoding makes of a mosaic, at half or at full size. */
export function decodedScan(scan: Scan, half: boolean): DecodedScan {
  const { width, height, mosaic, cfa, black, white, meta } = scan;
  const picture = { width, height, stride: width, left: 0, top: 0, period: 2, monochrome: false };
  const [seconds, of] = meta.shutter;
  const info: ScanInfo = {
    source: "raw",
    make: meta.make,
    model: meta.model,
    lens: meta.lens,
    shutter: seconds / of,
    aperture: meta.aperture,
    iso: meta.iso,
    width,
    height,
    bits: 14,
    mosaic: "bayer",
  };
  return {
    scan: scanOfMosaic({ ...picture, data: mosaic, colours: COLOURS[cfa], black: [...black], white }, half),
    info,
  };
}

interface MeasuredBlank {
  readonly info: ScanInfo;
  readonly field?: LightField;
  readonly reading?: BlankReading;
}

const blanks = new Map<string, MeasuredBlank>();

/** A blank and what is measured on it; the same request is answered from memory. */
function blankOf(rig: Rig, order: ScanRequest, wanted: boolean, decoded: RollOptions["decoded"]): MeasuredBlank {
  const { camera, setup, exposure, width } = order;
  // Without film there is nothing to blur.
  const seen = { ...setup, blur: undefined, shake: undefined };
  const key = JSON.stringify([camera.model, camera.lens, rig.light.name, seen, exposure, width, wanted]);
  const known = decoded ? undefined : blanks.get(key);
  if (known) return known;
  const plain = halfScan(photographFilm(order, 90));
  const { scan, info } = decoded?.(plain, -1) ?? plain;
  const field = wanted ? makeLightField(scan, info) : undefined;
  const made = field ? { info, field, reading: measureBlank(scan, field, info, "LIGHT.dng") } : { info };
  if (!decoded) blanks.set(key, made);
  return made;
}

export interface RollOptions {
  readonly rig?: Rig;
  readonly subjects: readonly SubjectName[];
  /** Changes each scan; the blank has the index −1. */
  readonly fault?: (request: ScanRequest, index: number) => ScanRequest;
  readonly names?: readonly string[];
  readonly withBlank?: boolean;
  /** Whether the recipe mirrors every frame. */
  readonly mirror?: boolean;
  /** Flare that the recipe takes off. */
  readonly taken?: Rgb;
  /** Changes what decoding makes of each scan; the blank has the index −1. */
  readonly decoded?: (made: DecodedScan, index: number) => DecodedScan;
}

export interface MeasuredRoll {
  readonly roll: SurveyedRoll;
  readonly scans: readonly Scan[];
}

/** Photographs, decodes and measures a roll: its frames lie where the first one lies. */
export function measuredRoll(order: RollOptions): MeasuredRoll {
  const { rig = RIG, subjects, fault = (r) => r, withBlank = true, mirror = false, taken: flare = GOOD_FLARE } = order;
  const names = order.names ?? subjects.map((_, i) => String(12 + i));
  const { info: blankInfo, field, reading } = blankOf(rig, fault(request(rig, "blank"), -1), withBlank, order.decoded);
  const { area } = projection(filmOf(subjects[0], rig.stock, names[0]), GOOD_PLACEMENT, WIDTH, HEIGHT);
  const scans = subjects.map((subject, i) =>
    photographFilm(fault(request(rig, filmOf(subject, rig.stock, names[i])), i), 100 + i),
  );
  const readings = scans.map((taken, i): ScanReading => {
    const plain = halfScan(taken);
    const { scan, info } = order.decoded?.(plain, i) ?? plain;
    const { ratio } = relativeExposure(info, blankInfo);
    return measureScan(scan, {
      name: `S${names[i]}.dng`,
      frame: names[i],
      info,
      area,
      film: rig.stock.film,
      mirror,
      light: { field, flare, ratio },
      noise: reading?.noise,
      lateral: true,
    });
  });
  const { camera, light, stock } = rig;
  const base = cameraDensity(
    camera,
    light,
    stock,
    stock.layers.map(() => 0),
  );
  const roll: SurveyedRoll = {
    film: rig.stock.film,
    picture: [9, 6],
    base,
    flare,
    sensor: rig.camera.sensor,
    scans: readings,
    ...(reading ? { blank: reading } : {}),
  };
  return { roll, scans };
}

/** What the good set-up has by itself: glare of a field with about a fifth of the light, and stray light. */
export const GOOD_FLARE = [0.002, 0.002, 0.0025] as const;
