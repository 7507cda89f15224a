/**
 * Faults of the copy lens: what is left of known ones on the witness's rolls, how long correcting a scan of 24 megapixels
 * takes, the picture of the docs, and lateral colour of camera raws in a folder (`--raw`), reported without a bar: of a
 * lens that nobody has measured there is no truth. Such pictures need not be film.
 *
 * Usage: node dist/bench.mjs lens [--raw FOLDER] [--picture FOLDER]; with pictures to draw the rolls are left out
 */
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import sharp from "sharp";
import { relativeExposure } from "../../extension/engine/flat-field/exposure.ts";
import { filmPlane, type FilmPlane, pixelBox } from "../../extension/engine/flat-field/film-plane.ts";
import { makeLightField } from "../../extension/engine/flat-field/light-field.ts";
import { correctLens, correctMosaic } from "../../extension/engine/lens/correct.ts";
import { distortionTerms, fitDistortion } from "../../extension/engine/lens/distortion.ts";
import { readEdges } from "../../extension/engine/lens/straight-edges.ts";
import { projection } from "../witness/camera/project.ts";
import { GOOD_PLACEMENT } from "../witness/camera/setup.ts";
import {
  fitLateralColour,
  type LateralFit,
  lateralFaults,
  readLateralColour,
} from "../../extension/engine/lens/lateral-colour.ts";
import { radialScale } from "../../extension/engine/lens/radial.ts";
import type { LensFaults, LinearScan } from "../../extension/engine/types.ts";
import { decodeScan } from "../../extension/scans/decode.ts";
import { scanOfMosaic } from "../../extension/scans/raw/to-scan.ts";
import { photographFilm, type Scan } from "../witness/camera/camera.ts";
import type { LensDrawing } from "../witness/camera/setup.ts";
import { COLOURS, filmOf, GOOD_FLARE, halfScan, request, RIG } from "../unit/engine/survey/rig.ts";
import { SKERRY_100 } from "../witness/film/stocks.ts";
import type { SubjectName } from "../unit/engine/survey/subjects/subjects.ts";

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: { raw: { type: "string" }, picture: { type: "string" } },
});

/** Part of a scan that is shown, in pixels, and how much it is enlarged. */
const CORNER = { left: 70, top: 50, width: 170, height: 120 };
const ENLARGED = 3;

const LENS = { red: [0.0018, 0.0014], blue: [-0.0014, -0.0012] } as const;
/** Rolls with their lenses; constants were set by the first alone. */
const ROLLS: readonly (readonly [string, readonly SubjectName[], LensDrawing, number])[] = [
  [
    "tune",
    ["quay", "meadow", "portrait", "night", "faces", "fair"],
    { red: [0.0012, 0.0009], blue: [-0.001, -0.0015] },
    300,
  ],
  ["held out 1", ["market", "workbench", "pebbles", "regatta", "bracken", "rain"], LENS, 7100],
  [
    "held out 2",
    ["gulls", "shingle", "rigging", "fair", "seedheads", "mist"],
    { red: [-0.0006, 0.0021], blue: [0.0016, -0.0004] },
    9900,
  ],
  ["held out 3", ["hoarfrost", "night", "sundown", "lace", "snowfall", "glitter"], {}, 4400],
];

/** Rolls for distortion; constants were set by the first alone. */
const DISTORTED: readonly (readonly [string, readonly SubjectName[], readonly [number, number], number])[] = [
  ["tune", ["quay", "meadow", "portrait", "faces"], [-0.02, 0.006], 500],
  ["held out 1", ["market", "rain", "mist", "bracken"], [0.012, 0], 8600],
  ["held out 2", ["lace", "regatta", "shingle", "gulls"], [0.004, -0.002], 8700],
  ["held out 3", ["pebbles", "night", "sundown", "workbench"], [0, 0], 8800],
];

const blank = halfScan(photographFilm(request(RIG, "blank"), 90));
const field = makeLightField(blank.scan, blank.info);

function shot(subject: SubjectName, lens: LensDrawing, seed: number, stock = RIG.stock): Scan {
  const plain = request({ ...RIG, stock }, filmOf(subject, stock));
  return photographFilm({ ...plain, setup: { ...plain.setup, lens } }, seed);
}

function planeOf(scan: Scan, faults?: LensFaults): FilmPlane {
  const half = halfScan(scan);
  if (faults) correctLens(half.scan, faults);
  return filmPlane(half.scan, { field, flare: GOOD_FLARE, ratio: relativeExposure(half.info, blank.info).ratio });
}

const fitOf = (planes: readonly FilmPlane[]): LateralFit | undefined =>
  fitLateralColour(planes.map((plane) => readLateralColour(plane, pixelBox(plane, 0.05, 0.05, 0.95, 0.95))));

const corners = (fit: LateralFit, unit: number): string =>
  [fit.red, fit.blue]
    .map(({ corner, error }) => `${(corner * unit).toFixed(3)} ±${(error * unit).toFixed(3)}`)
    .join(", ");

console.log("lateral colour in the corner, px of the full scan: red, blue");
for (const [name, subjects, lens, seed] of values.picture ? [] : ROLLS) {
  const scans = subjects.map((subject, i) => shot(subject, lens, seed + i));
  const { unit } = radialScale(scans[0]);
  const fit = fitOf(scans.map((scan) => planeOf(scan)));
  const left = fit && fitOf(scans.map((scan) => planeOf(scan, { lateral: lateralFaults(fit) })));
  const truth = (["red", "blue"] as const).map((c) => ((lens[c]?.[0] ?? 0) + (lens[c]?.[1] ?? 0)) * unit);
  if (fit && left)
    console.log(
      `${name}: true ${truth.map((t) => t.toFixed(3)).join(", ")}; measured ${corners(fit, unit)}; left after correction ${corners(left, unit)}`,
    );
}

if (values.picture) {
  await drawPicture(join(values.picture, "lens-lateral.jpg"));
  await drawEdge(join(values.picture, "lens-distortion.jpg"));
}
measureDistortion();
timeCorrection();
if (values.raw && existsSync(values.raw)) await measureRaws(values.raw);

/** Distortion on rolls of four pictures of 3 megapixels, in the corner, at the scale of the middle. */
function measureDistortion(): void {
  const [width, height] = [2160, 1440];
  const { area } = projection(filmOf("quay", RIG.stock), GOOD_PLACEMENT, width, height);
  console.log("distortion in the corner, % of the radius");
  for (const [name, subjects, distortion, seed] of values.picture ? [] : DISTORTED) {
    const planes = (faults?: LensFaults): FilmPlane[] =>
      subjects.map((subject, i) => {
        const plain = request(RIG, filmOf(subject, RIG.stock));
        const setup = { ...plain.setup, lens: { distortion } };
        return planeOf(photographFilm({ ...plain, setup, width, height }, seed + i), faults);
      });
    const fit = fitDistortion(planes().map((plane) => readEdges(plane, area, "colour-negative")));
    if (!fit) continue;
    const after = planes({ distortion: distortionTerms(fit) });
    const left = fitDistortion(after.map((plane) => readEdges(plane, area, "colour-negative")));
    const percent = (part: number): string => (100 * part).toFixed(3);
    console.log(
      `${name}: true ${percent(distortion[0] + distortion[1])}; measured ${percent(fit.corner)} ±${percent(fit.error)}; left after correction ${left ? percent(left.corner) : "not measured"}`,
    );
  }
}

/** The picture's top edge before and after, stretched in height. */
async function drawEdge(file: string): Promise<void> {
  const distortion = [-0.02, 0.004] as const;
  const rows = 26;
  const strips = [false, true].map((isCorrected) => {
    const plain = request(RIG, filmOf("quay", RIG.stock));
    const taken = photographFilm({ ...plain, setup: { ...plain.setup, lens: { distortion } } }, 77);
    const { scan } = halfScan(taken);
    if (isCorrected) correctLens(scan, { distortion });
    const out = new Uint8Array(scan.width * rows);
    for (let i = 0; i < out.length; i++) {
      const k = ((8 + Math.floor(i / scan.width)) * scan.width + (i % scan.width)) * 3 + 1;
      out[i] = Math.max(0, Math.min(255, 330 * (scan.data[k] - scan.black) * scan.scale));
    }
    return { width: scan.width, data: out };
  });
  const [wide, high] = [1028, 220];
  const drawn = await Promise.all(
    strips.map(({ width, data }) =>
      sharp(data, { raw: { width, height: rows, channels: 1 } })
        .resize(wide, high, { fit: "fill" })
        .png()
        .toBuffer(),
    ),
  );
  await sharp({ create: { width: wide, height: 2 * high + 8, channels: 3, background: "#ffffff" } })
    .composite(drawn.map((input, k) => ({ input, left: 0, top: k * (high + 8) })))
    .jpeg({ quality: 85 })
    .toFile(file);
}

/** Correcting against making the same scan of its mosaic, in one run. */
function timeCorrection(): void {
  const [width, height] = [6016, 4016];
  const size = { width, height, stride: width, left: 0, top: 0, period: 2, monochrome: false, colours: [0, 1, 1, 2] };
  const mosaic = {
    ...size,
    black: [0, 0, 0, 0],
    white: 16383,
    data: Uint16Array.from({ length: width * height }, (_, i) => 3000 + ((i * 7919) % 4096)),
  };
  const timed = (run: () => unknown): number => {
    const start = performance.now();
    run();
    return (performance.now() - start) / 1000;
  };
  let scan: LinearScan | undefined;
  const made = Math.min(...[0, 1].map(() => timed(() => (scan = scanOfMosaic(mosaic, false)))));
  const lateral = Math.min(...[0, 1].map(() => timed(() => correctMosaic(mosaic, LENS))));
  const both = Math.min(...[0, 1].map(() => timed(() => correctLens(scan!, { distortion: [0.01, 0] }))));
  console.log(
    `24 megapixels: demosaicing ${made.toFixed(2)} s; lateral colour in the mosaic ${lateral.toFixed(2)} s; distortion of the scan ${both.toFixed(2)} s`,
  );
}

/** A corner of a witness scan before and after, each as a positive of its own greys, enlarged. */
async function drawPicture(file: string): Promise<void> {
  const strong = { red: [0.0025, 0.002], blue: [-0.002, -0.0018] } as const;
  const sides = [false, true].map((isCorrected) => {
    const taken = shot("lace", strong, 7300, SKERRY_100);
    const { width, height, mosaic: data, cfa, black, white } = taken;
    const mosaic = {
      width,
      height,
      stride: width,
      left: 0,
      top: 0,
      period: 2,
      monochrome: false,
      data,
      colours: COLOURS[cfa],
      black: [...black],
      white,
    };
    if (isCorrected) correctMosaic(mosaic, strong);
    return cornerOf(scanOfMosaic(mosaic, false));
  });
  const [wide, high] = [CORNER.width * ENLARGED, CORNER.height * ENLARGED];
  const enlarged = await Promise.all(
    sides.map((data) =>
      sharp(data, { raw: { width: CORNER.width, height: CORNER.height, channels: 3 } })
        .resize(wide, high, { kernel: "nearest" })
        .png()
        .toBuffer(),
    ),
  );
  await sharp({ create: { width: 2 * wide + 8, height: high, channels: 3, background: "#ffffff" } })
    .composite(enlarged.map((input, k) => ({ input, left: k * (wide + 8), top: 0 })))
    .jpeg({ quality: 88, chromaSubsampling: "4:4:4" })
    .toFile(file);
}

/** Each channel between its own 1st and 99th percentile in density, so that both sides are judged alike. */
function cornerOf({ width, data, black }: LinearScan): Uint8Array {
  const { left, top, width: wide, height: high } = CORNER;
  const out = new Uint8Array(wide * high * 3);
  for (const c of [0, 1, 2]) {
    const density = Float64Array.from({ length: wide * high }, (_, i) => {
      const k = ((top + Math.floor(i / wide)) * width + left + (i % wide)) * 3 + c;
      return -Math.log10(Math.max(1, data[k] - black));
    });
    const sorted = density.toSorted();
    const [low, high99] = [sorted[Math.floor(0.01 * sorted.length)], sorted[Math.floor(0.99 * sorted.length)]];
    density.forEach((d, i) => (out[i * 3 + c] = Math.max(0, Math.min(255, (255 * (d - low)) / (high99 - low)))));
  }
  return out;
}

async function measureRaws(folder: string): Promise<void> {
  const readings = [];
  for (const name of readdirSync(folder)
    .filter((one) => /^hdrmerge.*\.dng$/i.test(one))
    .toSorted()) {
    const { scan, info } = await decodeScan(join(folder, name), { half: true });
    const unit = Math.hypot(info.width, info.height) / 2;
    const read = (one: LinearScan) => {
      const plane = filmPlane(one, { ratio: 1 });
      return readLateralColour(plane, pixelBox(plane, 0.01, 0.01, 0.99, 0.99));
    };
    const reading = read(scan);
    readings.push({ name, unit, scan, read, reading, fit: fitLateralColour([reading]) });
  }
  const together = fitLateralColour(readings.map(({ reading }) => reading));
  for (const { name, unit, scan, read, fit } of readings) {
    if (!fit || !together) continue;
    correctLens(scan, { lateral: lateralFaults(together) });
    const left = fitLateralColour([read(scan)]);
    console.log(
      `${name}: ${corners(fit, unit)}; with what all show corrected ${left ? corners(left, unit) : "nothing measured"}`,
    );
  }
  if (together) console.log(`all: ${corners(together, readings[0].unit)}`);
}
