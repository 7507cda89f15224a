/**
 * Film for the survey's bench, as transmittances of a mosaic's sites: pieces that the witness photographs, laid side by
 * side until a scan of any size is full.
 *
 * An ordinary frame is a picture of the demo with thirty specks, as a well-kept scan has; the worst is eight subjects
 * full of things that look like dust, for the time of a survey grows with what it has to look at.
 */
import { SCENES, type SceneName } from "../../recipes-examples/scenes/index.ts";
import { filmOf, request, RIG, SMALL_FORMAT } from "../unit/engine/survey/rig.ts";
import type { SubjectName } from "../unit/engine/survey/subjects/subjects.ts";
import { photographFilm, type ScanRequest } from "../witness/camera/camera.ts";
import { scatterDust } from "../witness/faults/dust.ts";
import { develop } from "../witness/film/film.ts";
import type { FilmFormat } from "../witness/film/format.ts";

/** A picture's transmittances, its sides even, so that pieces keep the mosaic whole. */
interface Piece {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

/** Transmittance at a pixel of a scan's picture; from its upper left corner. */
type Picture = (x: number, y: number, scan: number) => number;

/** Twice the small format each way: about a sixth of a frame of 135 at 24 megapixels. */
const FORMAT: FilmFormat = { ...SMALL_FORMAT, name: "ordinary", picture: [18, 12], strip: 16 };
/** Pixels of the scene and of its scan: the taking lens resolves less than the copying one. */
const [SCENE, SCAN] = [
  [1500, 1000],
  [2160, 1440],
];
/** Specks of a piece: thirty on the six that a frame of 135 holds. */
const SPECKS = 5;
const ORDINARY: readonly SceneName[] = ["quay-houses", "skipper"];

const WORST: readonly SubjectName[] = [
  "night",
  "snowfall",
  "quay",
  "pebbles",
  "meadow",
  "rigging",
  "portrait",
  "netting",
];

export const FILMS: Readonly<Record<string, () => Picture>> = {
  ordinary() {
    const pieces = ORDINARY.map((name, k) => ordinaryPiece(name, 700 + k));
    return (x, y, scan) => sample(pieces[scan % pieces.length], x, y);
  },
  worst() {
    const pieces = WORST.map((name, k) => worstPiece(name, 500 + k));
    const { width, height } = pieces[0];
    return (x, y, scan) =>
      sample(pieces[(Math.floor(x / width) + 3 * Math.floor(y / height) + scan) % pieces.length], x, y);
  },
};

const sample = ({ width, height, data }: Piece, x: number, y: number): number =>
  data[(y % height) * width + (x % width)];

function ordinaryPiece(name: SceneName, seed: number): Piece {
  const [width, height] = SCAN;
  const scene = SCENES[name](SCENE[0], SCENE[1]);
  const film = develop(scene, RIG.stock, { format: FORMAT, margin: [1, 1], pixelsPerMm: 110 }, seed);
  const dust = scatterDust(FORMAT, { specks: SPECKS, smallest: 0.014, largest: 0.06 }, seed);
  return pieceOf({ ...request(RIG, film), width, height, dust }, seed);
}

function worstPiece(name: SubjectName, seed: number): Piece {
  const dust = scatterDust(SMALL_FORMAT, { specks: 40, smallest: 0.014, largest: 0.06 }, seed);
  return pieceOf({ ...request(RIG, filmOf(name, RIG.stock)), dust }, seed);
}

/** The picture alone, without its borders. */
function pieceOf(order: ScanRequest, seed: number): Piece {
  const scan = photographFilm(order, seed);
  const { bare, flare } = scan.truth;
  const { left, top, width, height } = scan.truth.area!;
  const even = (v: number): number => 2 * Math.round(v / 2);
  const [x0, y0] = [even((left + 0.006) * scan.width), even((top + 0.006) * scan.height)];
  const [w, h] = [even((width - 0.012) * scan.width), even((height - 0.012) * scan.height)];
  const data = new Float32Array(w * h);
  for (let y = 0, i = 0; y < h; y++)
    for (let x = 0; x < w; x++, i++) {
      const site = (y & 1) * 2 + (x & 1);
      const signal = (scan.mosaic[(y0 + y) * scan.width + x0 + x] - scan.black[site]) / (scan.white - scan.black[site]);
      const c = [0, 1, 1, 2][site];
      // The bench's roll has a flare of its own.
      data[i] = Math.max(1e-4, signal / bare[c] - flare[c]);
    }
  return { width: w, height: h, data };
}
