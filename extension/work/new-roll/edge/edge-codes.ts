/** What the edge codes of a roll's scans say together: the film, and the number of each picture. */
import { publishedFilms } from "../../../engine/film/library/index.ts";
import type { PublishedFilm } from "../../../engine/film/library/types.ts";
import type { Area } from "../../../engine/types.ts";
import type { CodedFilm } from "../../../scans/edge-codes/film-names.ts";
import type { EdgeCode } from "../../../scans/edge-codes/read-edge-codes.ts";

/** The codes around one picture. */
export interface CodedPicture {
  /** Centres in fractions of the scan, `pixelsPerMm` in the unit of `width`. */
  readonly codes: readonly EdgeCode[];
  readonly area?: Area;
  /** Of the scan, in any unit. */
  readonly width: number;
  readonly height: number;
}

/** What the edge says, with its evidence. */
export interface EdgeReading {
  /** The film's code, "36-2", and how many of how many pictures show it. */
  readonly film: string;
  readonly pictures: number;
  readonly of: number;
  /** Other codes that were read; more than one film in a folder, or a misreading. */
  readonly others: readonly string[];
  /** Films that carry the code. With several none is chosen. */
  readonly names: readonly CodedFilm[];
  /** The one published film that the one name means, where that is certain. */
  readonly published?: PublishedFilm;
  /** Numbers of the pictures as on the film, "20A", by position; undefined where nothing tells one. */
  readonly frames: readonly (string | undefined)[];
  /** Whether most codes lie as a mirror shows them: the emulsion faced the camera. */
  readonly mirrored: boolean;
}

/** From the middle of a number and its code, which lie beside one another, to the code's middle, mm along the film. */
const CODE_AFTER_LABEL = 4.7;
const FRAME = 38;
/** A film was sold from about the year of its data sheet. */
const YEARS = 3;

/** @returns undefined where no picture shows a code */
export function readEdges(pictures: readonly CodedPicture[]): EdgeReading | undefined {
  const counts = new Map<string, { pictures: number; names: readonly CodedFilm[] }>();
  for (const { codes } of pictures)
    for (const film of new Set(codes.map((c) => c.film))) {
      const names = codes.find((c) => c.film === film)!.names;
      counts.set(film, { pictures: (counts.get(film)?.pictures ?? 0) + 1, names });
    }
  const ranked = [...counts].toSorted((a, b) => b[1].pictures - a[1].pictures);
  if (ranked.length === 0) return undefined;
  const [film, { pictures: count, names }] = ranked[0];
  const sides = pictures.flatMap((picture) => picture.codes.map((code) => isMirrored(code, picture)));
  const published = names.length === 1 ? publishedAs(names[0]) : undefined;
  return {
    film,
    pictures: count,
    of: pictures.length,
    others: ranked.slice(1).map(([other]) => other),
    names,
    ...(published ? { published } : {}),
    frames: frameNumbers(pictures.map((p) => ({ ...p, codes: p.codes.filter((c) => c.film === film) }))),
    mirrored: 2 * sides.filter(Boolean).length > sides.length,
  };
}

/** The published film whose name's words are all in a coded film's name, and whose year agrees. */
function publishedAs({ name, year }: CodedFilm): PublishedFilm | undefined {
  if (year === undefined) return undefined;
  const words = (text: string): string[] => text.toLowerCase().match(/[a-z0-9@]+/g) ?? [];
  const own = new Set(words(name));
  const fit = publishedFilms.filter((f) => words(f.name).every((w) => own.has(w)) && Math.abs(f.year - year) <= YEARS);
  return fit.length === 1 ? fit[0] : undefined;
}

const middleOf = ({ area }: CodedPicture): readonly [x: number, y: number] =>
  area ? [area.left + area.width / 2, area.top + area.height / 2] : [0.5, 0.5];

/** Read along its direction a code has the picture on its left (y down: above it); a mirror puts it on the right. */
function isMirrored({ centre, direction }: EdgeCode, picture: CodedPicture): boolean {
  const [x, y] = middleOf(picture);
  const [dx, dy] = [(x - centre[0]) * picture.width, (y - centre[1]) * picture.height];
  return direction[0] * dy - direction[1] * dx > 0;
}

/** Numbers of pictures: what lies nearest to each picture's middle, with one rule for the whole roll. */
function frameNumbers(pictures: readonly CodedPicture[]): (string | undefined)[] {
  const at = pictures.map(positionOf);
  const known = at.filter((v) => v !== undefined);
  if (known.length === 0) return at.map(() => undefined);
  // A camera lays its pictures anywhere between two numbers, but on the whole roll alike: a mean on the circle of half
  // a frame says where.
  const angle = known.map((v) => 4 * Math.PI * v);
  const turn = Math.atan2(
    angle.reduce((s, a) => s + Math.sin(a), 0),
    angle.reduce((s, a) => s + Math.cos(a), 0),
  );
  const phase = turn / (4 * Math.PI);
  const halves = at.map((v) => (v === undefined ? undefined : Math.round(2 * (v - phase))));
  return fillGaps(halves).map((v) => (v === undefined || v < 0 ? undefined : nameOf(v)));
}

/** The number, as a real one, that the film would have at the middle of the picture: the mean of what its codes say. */
function positionOf(picture: CodedPicture): number | undefined {
  const { codes, width, height } = picture;
  const numbered = codes.filter((c) => c.frame !== undefined);
  if (numbered.length === 0) return undefined;
  const [x, y] = middleOf(picture);
  const readings = numbered.map(({ frame, centre, direction, pixelsPerMm }) => {
    const along = (x - centre[0]) * width * direction[0] + (y - centre[1]) * height * direction[1];
    return frame! + (along / pixelsPerMm + CODE_AFTER_LABEL) / FRAME;
  });
  const middle = readings.toSorted((a, b) => a - b)[readings.length >> 1];
  // One misread number must not move the mean.
  const near = readings.filter((v) => Math.abs(v - middle) < 0.2);
  return near.reduce((a, b) => a + b, 0) / near.length;
}

/** Pictures without a number between two that have one get theirs where the steps between leave no doubt. */
function fillGaps(halves: readonly (number | undefined)[]): (number | undefined)[] {
  const out = [...halves];
  const read = halves.flatMap((v, i) => (v === undefined ? [] : [i]));
  for (let k = 1; k < read.length; k++) {
    const [i, j] = [read[k - 1], read[k]];
    const step = (halves[j]! - halves[i]!) / (j - i);
    // Whole frames (two halves) or half frames, forwards or backwards.
    if (Math.abs(step) === 2 || Math.abs(step) === 1)
      for (let m = i + 1; m < j; m++) out[m] = halves[i]! + step * (m - i);
  }
  const steps = read.slice(1).map((j, k) => (halves[j]! - halves[read[k]]!) / (j - read[k]));
  const step = steps.length > 0 && steps.every((s) => s === steps[0]) ? steps[0] : undefined;
  if (step === undefined || (Math.abs(step) !== 2 && Math.abs(step) !== 1)) return out;
  for (let i = 0; i < read[0]; i++) out[i] = halves[read[0]]! - step * (read[0] - i);
  const last = read[read.length - 1];
  for (let i = last + 1; i < out.length; i++) out[i] = halves[last]! + step * (i - last);
  return out;
}

const nameOf = (half: number): string => `${String(half >> 1).padStart(2, "0")}${half % 2 === 1 ? "A" : ""}`;
