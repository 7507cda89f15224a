/** A sheet of the witness's film photographed in parts: rows and columns that overlap, in any order. */
import { makeLightField } from "../../../../../extension/engine/flat-field/light-field.ts";
import { relativeExposure } from "../../../../../extension/engine/flat-field/exposure.ts";
import type { LightSetup } from "../../../../../extension/engine/flat-field/transmittance.ts";
import { type JoinPlace, onFirst } from "../../../../../extension/engine/image/join/place.ts";
import { correctLens } from "../../../../../extension/engine/lens/correct.ts";
import type { LensFaults, LinearScan } from "../../../../../extension/engine/types.ts";
import { photographFilm, type Scan } from "../../../../witness/camera/camera.ts";
import { develop, type DevelopedFilm } from "../../../../witness/film/film.ts";
import type { FilmFormat } from "../../../../witness/film/format.ts";
import { type Random, random } from "../../../../witness/random.ts";
import type { Scene } from "../../../../witness/scenes/scene.ts";
import { decodedScan, GOOD_FLARE, halfScan, request, RIG } from "../../survey/rig.ts";
import { SUBJECTS, type SubjectName } from "../../survey/subjects/subjects.ts";

/** Pixels of one scan. */
export const [WIDE, HIGH] = [1080, 720];
const FINE = 110;

export interface GridOptions {
  readonly subject: SubjectName | ((width: number, height: number) => Scene);
  readonly rows: number;
  readonly columns: number;
  /** Share of a side that neighbours share. */
  readonly overlap: number;
  /** Degrees by which a scan is turned at most, and shares of a side that it is moved by. */
  readonly turned: number;
  readonly moved: number;
  /** Stops by which exposures differ at most, beyond what their files say. */
  readonly stops: number;
  readonly distortion?: readonly [number, number];
  readonly seed: number;
  /** Decodes at half size, as larger scans are measured; these small ones are measured at full size. */
  readonly half?: boolean;
}

export interface GridShot {
  readonly shot: Scan;
  /** Its lens's distortion corrected. */
  readonly scan: LinearScan;
  readonly light: LightSetup;
  /** EV that it got beyond what its file says. */
  readonly stops: number;
  readonly row: number;
  readonly column: number;
}

const films = new Map<string, DevelopedFilm>();

/** The sheet of a subject that a grid covers; developed once. */
function sheetOf({ subject, rows, columns, overlap }: GridOptions): DevelopedFilm {
  const key = `${typeof subject === "string" ? subject : subject.name} ${rows} ${columns} ${overlap}`;
  const known = films.get(key);
  if (known) return known;
  const span = (count: number, pixels: number): number => Math.round((1 + (count - 1) * (1 - overlap)) * pixels);
  // A little smaller than what the scans cover, so that the rebate is in view.
  const picture = [span(columns, WIDE) * 0.97, span(rows, HIGH) * 0.97].map((n) => Math.round(n) / FINE);
  const format: FilmFormat = {
    name: "sheet",
    picture: [picture[0]!, picture[1]!],
    strip: picture[1]! + 2,
    marking: { height: 0.12, fromEdge: 0.86 },
  };
  const paint = typeof subject === "string" ? SUBJECTS[subject] : subject;
  const scene = paint(Math.round(picture[0]! * FINE), Math.round(picture[1]! * FINE));
  const film = develop(scene, RIG.stock, { format, margin: [1, 1], pixelsPerMm: FINE }, 7);
  films.set(key, film);
  return film;
}

const blank = halfScan(photographFilm(request(RIG, "blank"), 90));
export const field = makeLightField(blank.scan, blank.info);

/** Photographs the sheet part by part and mixes the parts' order. */
export function photographGrid(options: GridOptions): GridShot[] {
  const { rows, columns, overlap, turned, moved, stops, distortion, seed, half = false } = options;
  const film = sheetOf(options);
  const next = random(seed);
  const between = (most: number): number => most * (2 * next.uniform() - 1);
  const good = request(RIG, film);
  const [seconds, of] = good.exposure.shutter;
  const width = film.picture.width / WIDE;
  const shots: GridShot[] = [];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      // The picture's middle as this scan sees it.
      const centre = [
        0.5 - (column - (columns - 1) / 2) * (1 - overlap) + between(moved),
        0.5 - (row - (rows - 1) / 2) * (1 - overlap) + between(moved),
      ] as const;
      const ev = row === 0 && column === 0 ? 0 : between(stops);
      const shot = photographFilm(
        {
          ...good,
          setup: { ...good.setup, opening: undefined, ...(distortion ? { lens: { distortion } } : {}) },
          placement: { centre, width, tilt: between(turned), mirrored: false },
          exposure: { ...good.exposure, shutter: [Math.round(seconds * 1e5 * 2 ** ev), of * 1e5] },
        },
        seed * 100 + row * columns + column,
      );
      const { scan, info } = decodedScan(shot, half);
      if (distortion) correctLens(scan, { distortion } as LensFaults);
      // The file has the time that was set: what the shutter did differently is for the overlaps to tell.
      const { ratio } = relativeExposure({ ...info, shutter: seconds / of }, blank.info);
      shots.push({ shot, scan, light: { field, flare: GOOD_FLARE, ratio }, stops: ev, row, column });
    }
  return mixed(shots, next);
}

function mixed<T>(list: readonly T[], next: Random): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = Math.floor(next.uniform() * (i + 1));
    [out[i], out[j]] = [out[j]!, out[i]!];
  }
  return out;
}

/** Pixels of the scan, its first pixel's middle at 0, of a place in the picture. */
const placeIn = ({ shot, scan }: GridShot, u: number, v: number): [number, number] => {
  const [x, y] = shot.truth.placeOf(u, v);
  const times = shot.width / scan.width;
  return [x / times - 0.5, y / times - 0.5];
};

/** Where a place of a scan comes to lie on the first. */
export const laidAt = ([x, y, degrees]: JoinPlace, u: number, v: number): [number, number] =>
  onFirst(u, v, x, y, (degrees * Math.PI) / 180);

/** Distances, in pixels of the full scan, between where two scans put the places that both show. */
export function seamErrors(shots: readonly GridShot[], places: readonly (JoinPlace | undefined)[]): number[] {
  const off: number[] = [];
  const times = shots[0]!.shot.width / shots[0]!.scan.width;
  for (let v = 0.01; v < 1; v += 0.02)
    for (let u = 0.01; u < 1; u += 0.02) {
      const laid = shots.flatMap((shot, i) => {
        const [x, y] = placeIn(shot, u, v);
        const isSeen = x >= 8 && y >= 8 && x < shot.scan.width - 8 && y < shot.scan.height - 8;
        return isSeen && places[i] ? [laidAt(places[i], x, y)] : [];
      });
      for (let i = 0; i < laid.length; i++)
        for (let j = i + 1; j < laid.length; j++)
          off.push(times * Math.hypot(laid[i]![0] - laid[j]![0], laid[i]![1] - laid[j]![1]));
    }
  return off;
}
