/** How a scan was exposed: its brightest film, what is clipped, and whether dense tones drown in the sensor's noise. */
import type { LinearScan, Rgb } from "../types.ts";
import type { PixelBox } from "../flat-field/film-plane.ts";
import type { Box } from "./types.ts";
import { clamp } from "../math/clamp.ts";

/** Demosaicing mixes neighbours, so a saturated area ends a little below 1. */
const SATURATED = 0.985;
const BINS = 2048;
/** Parts of the picture's sides in which clipping is counted, to say where it is. */
const PLACES = 8;

export interface ExposureReading {
  readonly brightest: Rgb;
  readonly clipped: Rgb;
  readonly clippedAt?: Box;
}

/** Levels of a rectangle of a scan. */
export function readExposure(scan: LinearScan, box: PixelBox): ExposureReading {
  const { width, height, channels, data, black, scale } = scan;
  const counts = [0, 1, 2].map(() => new Uint32Array(BINS));
  const places = new Uint32Array(PLACES * PLACES);
  const clipped = [0, 0, 0];
  const step = Math.max(1, Math.floor(Math.sqrt(((box.x1 - box.x0) * (box.y1 - box.y0)) / 500_000)));
  let pixels = 0;
  for (let y = box.y0; y < box.y1; y += step)
    for (let x = box.x0; x < box.x1; x += step, pixels++)
      for (let c = 0; c < 3; c++) {
        const s = (data[(y * width + x) * channels + (channels === 3 ? c : 0)] - black) * scale;
        counts[c][clamp(Math.floor(s * (BINS - 1)), 0, BINS - 1)]++;
        if (s < SATURATED) continue;
        clipped[c]++;
        const q = Math.floor((PLACES * (x - box.x0)) / (box.x1 - box.x0));
        places[Math.floor((PLACES * (y - box.y0)) / (box.y1 - box.y0)) * PLACES + q]++;
      }
  const brightest = counts.map((list) => {
    let above = 0;
    let bin = BINS - 1;
    while (bin > 0 && (above += list[bin]) < pixels * 0.001) bin--;
    return (bin + 0.5) / (BINS - 1);
  });
  const worst = places.indexOf(places.reduce((a, b) => Math.max(a, b)));
  const [w, h] = [(box.x1 - box.x0) / PLACES, (box.y1 - box.y0) / PLACES];
  const at: Box = [
    (box.x0 + (worst % PLACES) * w) / width,
    (box.y0 + Math.floor(worst / PLACES) * h) / height,
    w / width,
    h / height,
  ];
  return {
    brightest: [brightest[0], brightest[1], brightest[2]],
    clipped: [clipped[0] / pixels, clipped[1] / pixels, clipped[2] / pixels],
    ...(places[worst] > 0 ? { clippedAt: at } : {}),
  };
}
