/** Strips of film with several pictures, and sheets of strips that lie side by side. */
import type { Scene } from "../scenes/scene.ts";
import { type Box, develop, type DevelopedFilm, type DevelopOptions } from "./film.ts";
import type { Stock } from "./stocks.ts";

export interface StripPicture {
  readonly scene: Scene | "leader";
  /** Stops more (+) or less (−) light than metered. */
  readonly exposure?: number;
  /** Film to its left and right that belongs to it, mm; half of the gap where absent. */
  readonly beside?: number;
}

export interface StripOptions extends Pick<DevelopOptions, "format" | "edgeCode" | "grain"> {
  readonly pixelsPerMm: number;
  /** Film between two pictures, mm. */
  readonly gap: number;
  /** Number of the first picture on the film's edge; without it the rebate is blank. */
  readonly first?: number;
  /** Film before the first and after the last picture, mm, after which it is cut; absent: it goes on out of view. */
  readonly ends?: readonly [before: number, after: number];
  /** Numbers of half frames count by halves: 12, 12A, 13. */
  readonly halves?: boolean;
}

export interface Strip {
  /** Its `picture` is the box around all pictures. */
  readonly film: DevelopedFilm;
  /** In film pixels, in order. */
  readonly pictures: readonly Box[];
}

/** Pictures side by side on one piece of film. */
export function developStrip(
  pictures: readonly StripPicture[],
  stock: Stock,
  options: StripOptions,
  seed: number,
): Strip {
  const { format, gap, pixelsPerMm, first, edgeCode, grain, ends } = options;
  const down = Math.max(1.9, (format.strip - format.picture[1]) / 2 + 1);
  const numberOf = (k: number): string =>
    options.halves ? `${first! + (k >> 1)}${k % 2 ? "A" : ""}` : String(first! + k);
  const pieces = pictures.map(({ scene, exposure, beside }, k) =>
    develop(
      scene,
      stock,
      {
        format,
        pixelsPerMm,
        margin: [beside ?? gap / 2, down],
        ...(exposure === undefined ? {} : { exposure }),
        ...(grain === undefined ? {} : { grain }),
        ...(first === undefined ? {} : { frame: numberOf(k) }),
        ...(edgeCode ? { edgeCode } : {}),
      },
      seed + 101 * k,
    ),
  );
  const around = (mm: number): DevelopedFilm =>
    develop(
      "leader",
      stock,
      {
        format: { ...format, picture: [mm, format.picture[1]] },
        pixelsPerMm,
        margin: [0, down],
        ...(grain === undefined ? {} : { grain }),
      },
      seed + 7,
    );
  // Past a cut end lies bare light.
  const all = ends ? [around(ends[0] + PAST), ...pieces, around(ends[1] + PAST)] : pieces;
  const film = beside(all);
  const lefts = leftsOf(all).slice(ends ? 1 : 0);
  const boxes = pieces.map((piece, k) => ({ ...piece.picture, left: piece.picture.left + lefts[k] }));
  const past = PAST * pixelsPerMm;
  const cut = (left: number): DevelopedFilm["holes"][number] => ({
    left: left - past,
    top: -past,
    width: 2 * past,
    height: film.height + 2 * past,
    corner: 0,
  });
  return {
    film: { ...film, picture: boxAround(boxes), holes: ends ? [...film.holes, cut(0), cut(film.width)] : film.holes },
    pictures: boxes,
  };
}

/** Bare light beyond a cut end, mm. */
const PAST = 4;

/** Strips one below the other with bare light between them. */
export function sheetOf(
  strips: readonly Strip[],
  apart: number,
): Strip & { readonly rows: readonly (readonly Box[])[] } {
  const { stock, format, pixelsPerMm } = strips[0].film;
  const space = Math.round(apart * pixelsPerMm);
  const width = Math.max(...strips.map(({ film }) => film.width));
  const layers = stock.layers.length;
  const heights = strips.map(({ film }) => Math.round(film.strip[1] - film.strip[0]));
  const height = heights.reduce((a, b) => a + b, 0) + space * (strips.length + 1);
  const amounts = new Float32Array(width * height * layers);
  const holes: DevelopedFilm["holes"][number][] = [];
  const rows: Box[][] = [];
  let top = space;
  holes.push({ left: -space, top: -space, width: width + 2 * space, height: 2 * space, corner: 0 });
  strips.forEach(({ film, pictures }, k) => {
    const from = Math.round(film.strip[0]);
    for (let y = 0; y < heights[k]; y++) {
      const row = film.amounts.subarray((from + y) * film.width * layers, (from + y + 1) * film.width * layers);
      amounts.set(row, (top + y) * width * layers);
    }
    const moved = <T extends Box>(box: T): T => ({ ...box, top: box.top + top - from });
    holes.push(...film.holes.map((hole) => (hole.corner === 0 ? { ...hole, top, height: heights[k] } : moved(hole))));
    if (film.width < width)
      holes.push({ left: film.width, top, width: width - film.width + space, height: heights[k], corner: 0 });
    rows.push(pictures.map(moved));
    top += heights[k];
    holes.push({
      left: -space,
      top,
      width: width + 2 * space,
      height: k === strips.length - 1 ? 2 * space : space,
      corner: 0,
    });
    top += space;
  });
  const pictures = rows.flat();
  const film = { stock, format, pixelsPerMm, width, height, picture: boxAround(pictures), amounts, holes };
  return { film: { ...film, strip: [0, height] }, pictures, rows };
}

/** Pieces of one height joined from left to right. */
function beside(pieces: readonly DevelopedFilm[]): DevelopedFilm {
  const [{ stock, format, pixelsPerMm, height, strip, picture }] = pieces;
  const layers = stock.layers.length;
  const width = pieces.reduce((sum, piece) => sum + piece.width, 0);
  const amounts = new Float32Array(width * height * layers);
  const lefts = leftsOf(pieces);
  pieces.forEach((piece, k) => {
    for (let y = 0; y < height; y++)
      amounts.set(
        piece.amounts.subarray(y * piece.width * layers, (y + 1) * piece.width * layers),
        (y * width + lefts[k]) * layers,
      );
  });
  const holes = pieces.flatMap((piece, k) => piece.holes.map((hole) => ({ ...hole, left: hole.left + lefts[k] })));
  return { stock, format, pixelsPerMm, width, height, picture, amounts, holes, strip };
}

function leftsOf(pieces: readonly DevelopedFilm[]): number[] {
  let left = 0;
  return pieces.map((piece) => (left += piece.width) - piece.width);
}

function boxAround(boxes: readonly Box[]): Box {
  const left = Math.min(...boxes.map((b) => b.left));
  const top = Math.min(...boxes.map((b) => b.top));
  return {
    left,
    top,
    width: Math.max(...boxes.map((b) => b.left + b.width)) - left,
    height: Math.max(...boxes.map((b) => b.top + b.height)) - top,
  };
}
