/** Whole rolls of the witness as camera files in a folder, begun by the work room in this process. */
import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { evaluator, type Reading } from "../../../../extension/engine/film/reference-pixel.ts";
import { makeLightField } from "../../../../extension/engine/flat-field/light-field.ts";
import { readTransmittance } from "../../../../extension/engine/flat-field/transmittance.ts";
import type { FrameLook, Rgb } from "../../../../extension/engine/types.ts";
import { composeRecipe } from "../../../../extension/recipe/edit/compose.ts";
import { loadRoll } from "../../../../extension/recipe/resolve/workspace.ts";
import { decodeScan } from "../../../../extension/scans/decode.ts";
import { lightSetup } from "../../../../extension/work/frame/develop.ts";
import { partsOf } from "../../../../extension/work/frame/join/frame-join.ts";
import { frameSetup } from "../../../../extension/work/frame/frame-setup.ts";
import { runHere } from "../run-here.ts";
import { openFrame } from "../../../../extension/work/frame/open-frame.ts";
import type { Pool } from "../../../../extension/work/pool/pool.ts";
import { startRoll, type NewRollOptions } from "../../../../extension/work/new-roll/new-roll.ts";
import type { StartedRoll } from "../../../../extension/work/new-roll/started-roll.ts";
import { openWorkspace } from "../../../../extension/work/files/workspace.ts";
import { photographFilm } from "../../../witness/camera/camera.ts";
import { CAMERA_A, PANEL, type Camera, type Light } from "../../../witness/camera/cameras.ts";
import { type DataSheet, dataSheet } from "../../../witness/film/datasheet.ts";
import { develop } from "../../../witness/film/film.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { colourMatrixOf } from "../../../witness/camera/colour-matrix.ts";
import { dngOf } from "../../../witness/camera/scan-file.ts";
import type { Scene } from "../../../witness/scenes/scene.ts";
import { GOOD_SETUP, type Leak, metered } from "../../../witness/camera/setup.ts";
import { NORTHLIGHT_400, type Stock } from "../../../witness/film/stocks.ts";
import { subject, type SubjectName } from "../../../witness/scenes/subjects.ts";
import { stepWedge } from "../../../witness/scenes/targets.ts";

/** Runs jobs here, one after the other: no process, no bundles. */
export const poolHere: Pool = {
  workers: 1,
  run: (job, payload) => runHere(job, payload),
  memory: () => Promise.resolve({ now: 0, peak: 0, workers: 1, seconds: 0 }),
  close: () => Promise.resolve(),
};

export interface RollShot {
  readonly of: SubjectName | Scene;
  /** Stops more or less than metered. */
  readonly stops?: number;
  readonly tilt?: number;
  /** Photographed nearer, in two scans that overlap, the second turned by so many degrees and a third of a stop darker. */
  readonly halves?: number;
  /** Part of the scan's width that the picture takes up, where it was photographed from farther away. */
  readonly wide?: number;
  /** Thirds of a stop by which the shutter was open less long than metered. */
  readonly shorter?: number;
  /** Photographed a second time, moved and turned by a little. */
  readonly again?: boolean;
  /** Light that leaks in beside the film. */
  readonly leak?: Leak;
}

export interface RollPlan {
  readonly shots: readonly RollShot[];
  readonly stock?: Stock;
  readonly camera?: Camera;
  readonly light?: Light;
  readonly leader?: boolean;
  readonly seed?: number;
  /** Whether the camera writes the marks of the usual series (1/30) and opens for powers of two (1/32). */
  readonly marked?: boolean;
  readonly size?: { readonly width: number; readonly height: number };
}

/** Parts of a scan's width that a picture takes up: whole, and where half of it is photographed. */
const [WIDE, NEAR] = [0.91, 1.35];
const SIZE = { width: 780, height: 520 };
/** The grey card lies in every picture. */
export const CARD = { left: 0.12, top: 0.68, width: 0.12, height: 0.18 };

/** Writes a roll's scans and its stock into a new folder. */
export function writeRoll(plan: RollPlan): string {
  const { stock = NORTHLIGHT_400, camera = CAMERA_A, light = PANEL, seed = 3, size = SIZE } = plan;
  const folder = mkdtempSync(join(tmpdir(), "roll-"));
  mkdirSync(join(folder, "scans"));
  const stand = { camera, light, setup: GOOD_SETUP, ...size };
  let minute = 0;
  const write = (name: string, request: Parameters<typeof photographFilm>[0], own: number): void => {
    const time = `2026:05:16 10:${String(minute++).padStart(2, "0")}:00`;
    const { shutter } = request.exposure;
    const exposure = plan.marked ? { ...request.exposure, shutter: trueShutter(shutter) } : request.exposure;
    const scan = photographFilm({ ...request, exposure }, own);
    const written = { ...scan, meta: { ...scan.meta, shutter } };
    writeFileSync(join(folder, "scans", name), dngOf(written, time, "jpeg", colourMatrixOf(camera)));
  };
  const blank = { ...GOOD_SETUP, opening: undefined };
  const bare = metered(camera, light, GOOD_SETUP, "bare light");
  write("S0001.dng", { ...stand, setup: blank, film: "blank", exposure: bare }, seed);
  const exposure = metered(camera, light, GOOD_SETUP, stock);
  const pixelsPerMm = (size.width * WIDE) / 36;
  if (plan.leader) {
    const film = develop("leader", stock, { format: FORMAT_135, pixelsPerMm }, seed);
    write("S0002.dng", { ...stand, film, exposure }, seed + 1);
  }
  for (const [i, shot] of plan.shots.entries()) {
    const { of: shown, stops = 0, tilt = 0.1 * i, halves, wide = WIDE, shorter = 0, again, leak } = shot;
    const scene = typeof shown === "string" ? subject(shown, 450, 300, seed + i, CARD) : shown;
    const options = {
      format: FORMAT_135,
      frame: String(i + 1),
      exposure: stops,
      pixelsPerMm: (pixelsPerMm * (halves === undefined ? wide : NEAR)) / WIDE,
    };
    const film = develop(scene, stock, options, seed + 10 + i);
    const name = `S${String(10 + i).padStart(4, "0")}`;
    if (halves === undefined) {
      const placement = { centre: [0.5 + 0.002 * i, 0.5] as const, width: wide, tilt, mirrored: false };
      const own = { ...exposure, shutter: shorterBy(exposure.shutter, shorter) };
      const setup = leak ? { ...GOOD_SETUP, leaks: [leak] } : GOOD_SETUP;
      write(`${name}.dng`, { ...stand, setup, film, exposure: own, placement }, seed + 20 + i);
      const moved = { ...placement, centre: [placement.centre[0] + 0.01, 0.492] as const, tilt: tilt + 0.25 };
      if (again) write(`${name}-2.dng`, { ...stand, film, exposure: own, placement: moved }, seed + 120 + i);
      continue;
    }
    const [seconds, of] = exposure.shutter;
    const part = (letter: string, x: number, y: number, turned: number, time: readonly [number, number]): void => {
      const placement = { centre: [x, y] as const, width: NEAR, tilt: turned, mirrored: false };
      const shot = { ...stand, film, exposure: { ...exposure, shutter: time }, placement };
      write(`${name}${letter}.dng`, { ...shot, setup: { ...GOOD_SETUP, opening: undefined } }, seed + 20 + i);
    };
    part("a", 0.735, 0.5, 0, exposure.shutter);
    part("b", 0.265, 0.507, halves, [seconds * 4, of * 5]);
  }
  writeFileSync(join(folder, "film.stock.yaml"), stockText(stock, camera, light));
  return folder;
}

// oxfmt-ignore
const MARKS = [4000, 3200, 2500, 2000, 1600, 1250, 1000, 800, 640, 500, 400, 320, 250, 200, 160, 125, 100, 80, 60, 50, 40, 30, 25, 20, 15, 13, 10, 8, 6, 5, 4, 3, 2, 1];

type Shutter = readonly [seconds: number, of: number];

const shorterBy = ([seconds, of]: Shutter, thirds: number): Shutter =>
  thirds === 0 ? [seconds, of] : [1, MARKS[MARKS.indexOf(of) - thirds]];

/** A mark stands for the nearest third of a stop from 1 s. */
const trueShutter = ([seconds, of]: Shutter): Shutter => [
  1e6,
  Math.round(1e6 * 2 ** (Math.round(3 * Math.log2(of / seconds)) / 3)),
];

const sheets = new Map<string, DataSheet>();

/** A data sheet, worked out once. */
export function sheetOf(stock: Stock, camera: Camera, light: Light): DataSheet {
  const key = `${stock.name}|${camera.model}|${light.name}`;
  const sheet = sheets.get(key) ?? dataSheet(stock, camera, light);
  sheets.set(key, sheet);
  return sheet;
}

/** A plain look on a film's data sheet. */
export const lookOf = ({ base, gamma, curve, unmix, colour }: DataSheet): FrameLook => ({
  film: "colour-negative",
  base,
  gamma,
  curve: curve!,
  unmix,
  colour,
  exposure: 0,
  filtration: { cyan: 0, magenta: 0, yellow: 0 },
  saturation: 1,
  tone: { contrast: 1.35, toe: 0.3, shoulder: 0.4, black: 0.5, points: [] },
});

/** The stock's recipe from its maker's data sheet. */
export function stockText(stock: Stock, camera: Camera, light: Light): string {
  const sheet = sheetOf(stock, camera, light);
  const tidy = (rows: readonly (readonly number[])[]): number[][] =>
    rows.map((r) => {
      const [a, b] = [Number(r[0].toFixed(5)), Number(r[1].toFixed(5))];
      return [a, b, Number(r[2].toFixed(5))];
    });
  const colour = sheet.colour.map((r) => {
    const [a, b] = [Number(r[0].toFixed(4)), Number(r[1].toFixed(4))];
    return [a, b, Number((1 - a - b).toFixed(4))];
  });
  return composeRecipe({
    kind: "stock",
    head: "An invented stock.",
    comments: [],
    values: [
      { path: ["title"], value: stock.name },
      { path: ["film"], value: stock.film },
      { path: ["format"], value: "135" },
      { path: ["negative", "base", "density"], value: sheet.base.map((d) => Number(d.toFixed(3))) },
      { path: ["negative", "curve"], value: sheet.curve },
      { path: ["negative", "unmix"], value: tidy(sheet.unmix) },
      { path: ["negative", "colour"], value: colour },
    ],
  });
}

export async function startIn(folder: string, options: Partial<NewRollOptions> = {}): Promise<StartedRoll> {
  const paths = {
    folder: join(folder, "scans"),
    roll: join(folder, "r.roll.yaml"),
    stock: join(folder, "film.stock.yaml"),
  };
  const started = await startRoll({ ...paths, ...options }, openWorkspace(folder), poolHere);
  writeFileSync(options.roll ?? paths.roll, started.text);
  return started;
}

/** Adds a scan of a 21-step wedge on the light to a roll's scans. */
export function writeWedge(folder: string, name: string, stray: number): { densities: number[]; flare: Rgb } {
  const { film, steps } = stepWedge(FORMAT_135, 25);
  const [camera, light] = [CAMERA_A, PANEL];
  const setup = { ...GOOD_SETUP, opening: undefined, stray: [stray, stray, stray] as const, veil: [0, 0, 0] as const };
  const exposure = metered(camera, light, GOOD_SETUP, "bare light");
  const placement = { centre: [0.5, 0.5] as const, width: 0.91, tilt: 0, mirrored: false };
  const made = photographFilm({ camera, light, setup, ...SIZE, film, exposure, placement }, 3);
  writeFileSync(join(folder, "scans", name), dngOf(made, "2026:05:16 12:00:00"));
  return { densities: steps.map((s) => s.density), flare: made.truth.flare as Rgb };
}

/** What the recipe makes of the grey card of each frame: measured on the scans, by the frame's own look. */
export async function cardReadings(folder: string): Promise<Reading[]> {
  const workspace = openWorkspace(folder);
  const { resolved } = (await loadRoll("r.roll.yaml", workspace))!;
  const { frames } = resolved!;
  const blank = await decodeScan(join(folder, resolved!.shared.light.blank!.path), { half: true });
  const { shutter, iso, aperture } = blank.info;
  const field = makeLightField(blank.scan, { shutter, iso, aperture });
  const readings: Reading[] = [];
  for (const frame of frames) {
    const light = { field, flare: frame.light.flare, reference: { shutter, iso, aperture } };
    const path = join(folder, frame.scans[0].path);
    const joined = partsOf(resolved!, frame, workspace);
    const setup = { ...frameSetup(frame, light), ...joined };
    const { scan, info, setup: read } = await openFrame(path, setup, { half: true, checkpoint: () => {} });
    const reader = readTransmittance(scan, lightSetup(read.light, info));
    const { area } = frame;
    const row = new Float32Array(scan.width * 3);
    const sum = [0, 0, 0];
    let n = 0;
    // The card's inner half; the tilt moves its middle by less than its margins.
    const at = (from: number, size: number, k: number): number => from + size * k;
    const y0 = at(area.top, area.height, CARD.top + CARD.height * 0.3) * scan.height;
    const y1 = at(area.top, area.height, CARD.top + CARD.height * 0.7) * scan.height;
    const x0 = at(area.left, area.width, CARD.left + CARD.width * 0.3) * scan.width;
    const x1 = at(area.left, area.width, CARD.left + CARD.width * 0.7) * scan.width;
    for (let y = Math.round(y0); y < y1; y++) {
      reader.row(y, row);
      for (let x = Math.round(x0); x < x1; x++, n++) for (let c = 0; c < 3; c++) sum[c] += row[x * 3 + c];
    }
    const mean = [sum[0] / n, sum[1] / n, sum[2] / n] as Rgb;
    readings.push(evaluator(frame.look, "srgb")(mean));
  }
  return readings;
}

/** Stops that a reading's grey lies above 18 %. */
export const stopsOff = ({ exposure }: Reading): number =>
  Math.log2((0.2126 * exposure[0] + 0.7152 * exposure[1] + 0.0722 * exposure[2]) / 0.18);

export const chroma = ({ lab }: Reading): number => Math.hypot(lab[1], lab[2]);
