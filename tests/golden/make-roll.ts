/**
 * Makes the two small rolls that the golden hashes are of, on the witness's film: a colour negative and a
 * black-and-white one. Their recipes use every step of the way from scan to picture. Argument: the folder to make them in.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { photographFilm } from "../witness/camera/camera.ts";
import { CAMERA_A, PANEL } from "../witness/camera/cameras.ts";
import { develop } from "../witness/film/film.ts";
import { FORMAT_135 } from "../witness/film/format.ts";
import { dngOf } from "../witness/camera/scan-file.ts";
import { GOOD_SETUP, metered } from "../witness/camera/setup.ts";
import { COALFISH_125, NORTHLIGHT_400 } from "../witness/film/stocks.ts";
import { subject } from "../witness/scenes/subjects.ts";
import { greyScale } from "../witness/scenes/targets.ts";

const folder = process.argv[2] ?? ".";
const [width, height] = [480, 320];
const common = { camera: CAMERA_A, light: PANEL, setup: GOOD_SETUP, width, height };

const OUTPUT = `output:
  - { name: archive, type: tiff, depth: 16, space: romm }
  - { name: bare, type: tiff, depth: 8, space: srgb, compression: none }
  - { name: deep, type: png, depth: 16, space: p3, long: 200, sharpen: 0.4 }
  - { name: web, type: png, depth: 8, space: adobe, long: 120 }
`;

const NEGATIVE = `negative:
  base: { density: [0.267, 0.586, 0.735], read: { scan: LEADER.dng, area: [0.4, 0.4, 0.2, 0.2] } }
  curve:
    logH: [-2.6, -1.5, -1.2, -1, -0.6, 0, 0.5, 1, 1.9]
    red: [0.183, 0.19, 0.246, 0.333, 0.54, 0.858, 1.123, 1.387, 1.838]
    green: [0.597, 0.604, 0.663, 0.755, 0.974, 1.31, 1.589, 1.868, 2.345]
    blue: [0.788, 0.797, 0.863, 0.966, 1.212, 1.59, 1.905, 2.219, 2.755]
    mid: 0
  unmix: [[1.469, -0.314, 0.101], [-0.441, 1.87, -0.36], [0.272, -0.67, 1.531]]
  colour: [[1.317, -0.351, 0.034], [-0.007, 1.221, -0.214], [-0.098, -0.016, 1.114]]
positive:
  filtration: { cyan: 0, magenta: 4, yellow: 7 }
  contrast: 1.4
  toe: 0.3
  shoulder: 0.45
  saturation: 1.1
  curve: [[0, 0], [25, 23], [75, 78], [100, 100]]
`;

const FRAMES = `frames:
  "01":
    scan: F01.dng
    area: { left: 0.05, top: 0.06, width: 0.9, height: 0.88, tilt: -0.4 }
    spots: [[0.41, 0.12, 0.01]]
  "02":
    scan: F02.dng
    area: { left: 0.06, top: 0.05, width: 0.88, height: 0.9, tilt: 1.1 }
    turn: 90
    mirror: true
    positive: { exposure: 0.4 }
`;

function make(name: string, stock: typeof NORTHLIGHT_400, recipe: string): void {
  const scans = join(folder, name, "scans");
  mkdirSync(scans, { recursive: true });
  const save = (file: string, request: Parameters<typeof photographFilm>[0], seed: number): void =>
    writeFileSync(join(scans, file), dngOf(photographFilm(request, seed), "2026:05:02 10:00:00"));
  const blank = { ...GOOD_SETUP, opening: undefined };
  const light = metered(CAMERA_A, PANEL, GOOD_SETUP, "bare light");
  save("LIGHT.dng", { ...common, setup: blank, film: "blank", exposure: light }, 1);
  const exposure = metered(CAMERA_A, PANEL, GOOD_SETUP, stock);
  const options = { format: FORMAT_135, pixelsPerMm: 12 };
  save("LEADER.dng", { ...common, film: develop("leader", stock, options, 2), exposure }, 3);
  const scenes = [greyScale(360, 240).scene, subject("street", 360, 240, 9)];
  for (const [k, scene] of scenes.entries())
    save(`F0${k + 1}.dng`, { ...common, film: develop(scene, stock, options, 4 + k), exposure }, 6 + k);
  writeFileSync(join(folder, name, `${name}.roll.yaml`), recipe);
}

const head = (title: string): string =>
  `version: 1\ntitle: ${title}\nscans: scans\nlight: { blank: LIGHT.dng, flare: 0.002, spots: [[0.6, 0.3, 0.008]] }\n`;
make("colour", NORTHLIGHT_400, `${head("Colour")}${NEGATIVE}${OUTPUT}${FRAMES}`);
make(
  "grey",
  COALFISH_125,
  `${head("Grey")}film: black-and-white-negative\nnegative: { base: { density: [0.24, 0.25, 0.26] }, gamma: 0.6 }\npositive: { contrast: 1.45, black: 1.5 }\n${OUTPUT}${FRAMES}`,
);
