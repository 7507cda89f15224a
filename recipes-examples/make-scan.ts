/** Makes one scan of a demo roll: draws the scene, develops it on the film, photographs the film, writes a camera file. */
import { photographFilm, type ScanRequest } from "../tests/witness/camera/camera.ts";
import { colourMatrixOf } from "../tests/witness/camera/colour-matrix.ts";
import { develop, type DevelopedFilm } from "../tests/witness/film/film.ts";
import { FORMAT_135 } from "../tests/witness/film/format.ts";
import { RGGB, writeDng } from "../tests/witness/raw/dng.ts";
import {
  CAMERA,
  LIGHT,
  PICTURE_WIDTH,
  SETUP,
  dustOf,
  exposureOf,
  placementOf,
  type RollPlan,
  type Shot,
} from "./roll-plan.ts";
import { SCENES } from "./scenes/index.ts";

/** Pixels of the drawn scene and of the scan; both of the scan's even. */
export interface Sizes {
  readonly scene: readonly [width: number, height: number];
  readonly scan: readonly [width: number, height: number];
}

export const FULL: Sizes = { scene: [1440, 960], scan: [2400, 1600] };

/** What to make: a picture of the roll by its place in the plan, the bare light, or the unexposed leader. */
export type Piece = number | "blank" | "leader";

/** File name of a piece. */
export function scanName(roll: RollPlan, piece: Piece): string {
  return typeof piece === "number" ? roll.shots[piece].scan : piece === "blank" ? roll.blank : roll.leader;
}

/** All pieces of a roll, blank and leader first. */
export function piecesOf(roll: RollPlan): Piece[] {
  return ["blank", "leader", ...roll.shots.map((_, i) => i)];
}

/** The camera file's bytes: the same for the same plan, piece, sizes and dust. The plan's own dust where none is given. */
export function makeScan(
  roll: RollPlan,
  piece: Piece,
  sizes: Sizes = FULL,
  dust?: NonNullable<ScanRequest["dust"]>,
): Uint8Array {
  const [width, height] = sizes.scan;
  const common = { camera: CAMERA, light: LIGHT, setup: SETUP, width, height };
  if (piece === "blank") {
    // The holder is taken away for the blank, so that the whole field shows the bare light.
    const setup = { ...SETUP, opening: undefined };
    return photograph({ ...common, setup, film: "blank", exposure: exposureOf("bare light", 0) }, roll.seed, 0);
  }
  if (piece === "leader") {
    const film = develop("leader", roll.stock, { format: FORMAT_135, pixelsPerMm: finenessOf(sizes) }, roll.seed + 1);
    return photograph({ ...common, film, exposure: exposureOf(roll.stock, 0) }, roll.seed + 1, 1);
  }
  const shot = roll.shots[piece];
  const seed = roll.seed + 10 + piece;
  const request: ScanRequest = {
    ...common,
    film: exposeFilm(roll, shot, sizes, seed),
    exposure: exposureOf(roll.stock, shot.shorter),
    placement: placementOf(shot),
    dust: dust ?? dustOf(shot, seed),
  };
  return photograph(request, seed, 2 + piece);
}

function exposeFilm(roll: RollPlan, shot: Shot, sizes: Sizes, seed: number): DevelopedFilm {
  const scene = SCENES[shot.scene](...sizes.scene);
  const options = { format: FORMAT_135, exposure: shot.exposed, frame: shot.frame, pixelsPerMm: finenessOf(sizes) };
  return develop(scene, roll.stock, options, seed);
}

/** Pixels a millimetre of the film's raster: as fine as the scan will be, so that grain is as sharp as on film. */
function finenessOf(sizes: Sizes): number {
  return (sizes.scan[0] * PICTURE_WIDTH) / FORMAT_135.picture[0];
}

function photograph(request: ScanRequest, seed: number, minute: number): Uint8Array {
  const scan = photographFilm(request, seed);
  return writeDng({
    width: scan.width,
    height: scan.height,
    data: scan.mosaic,
    pattern: RGGB,
    bits: scan.bits,
    black: scan.black,
    white: scan.white,
    make: scan.meta.make,
    model: scan.meta.model,
    colourMatrix: colourMatrixOf(request.camera).flat(),
    exif: {
      shutter: scan.meta.shutter,
      aperture: scan.meta.aperture,
      iso: scan.meta.iso,
      time: `2026:05:16 10:${String(12 + minute).padStart(2, "0")}:00`,
      lens: scan.meta.lens,
      focal: 60,
    },
  });
}
