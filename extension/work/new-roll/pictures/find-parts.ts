/** What is kept of each picture of a scan that shows several. */
import { sampleOf } from "../../../engine/auto/balance.ts";
import { densityMapOf } from "../../../engine/detect/overlap.ts";
import { type DownsampledScan, partOf } from "../../../engine/detect/downsampled-scan.ts";
import type { FoundOnScan } from "../../../engine/detect/index.ts";
import type { FoundStrips, StripFrame } from "../../../engine/detect/strip/strip-frames.ts";
import { grainPrint } from "../../../engine/detect/same-film.ts";
import type { FilmPlane } from "../../../engine/flat-field/film-plane.ts";
import type { Area } from "../../../engine/types.ts";
import type { EdgeCode } from "../../../scans/edge-codes/read-edge-codes.ts";
import type { FoundPicture } from "./found-picture.ts";

/** Sides of the maps by which pictures are compared, pixels: those of all pictures are alike. */
const [LONG, SHORT] = [96, 64];

/**
 * @param readCodes reads the codes around a rectangle
 */
export async function findParts(
  { downsampled, flare, base }: FoundOnScan,
  { frames }: FoundStrips,
  plane: FilmPlane,
  readCodes: (around: Area) => Promise<readonly EdgeCode[]>,
): Promise<FoundPicture[]> {
  const codes = new Map<number, readonly EdgeCode[]>();
  for (const strip of new Set(frames.map((frame) => frame.strip))) {
    const own = frames.filter((frame) => frame.strip === strip);
    codes.set(strip, codesOf(own, await readCodes(around(own))));
  }
  return frames.map(({ strip, ...frame }): FoundPicture => {
    const grain = grainPrint(plane, frame.area);
    return {
      ...(flare ? { flare } : {}),
      ...(base ? { base } : {}),
      frame,
      sample: sampleOf(downsampled, frame.area),
      map: mapOf(downsampled, frame.area),
      codes: codes.get(strip)!,
      ...(grain ? { grain } : {}),
      warnings: [],
    };
  });
}

function mapOf(downsampled: DownsampledScan, area: Area): FoundPicture["map"] {
  const part = partOf(downsampled, area);
  const [width, height] = part.width >= part.height ? [LONG, SHORT] : [SHORT, LONG];
  const { t } = part;
  const whole = { ...part, t: new Float32Array(width * height * 3), width, height };
  // Nearest places are enough: maps are compared at a hundredth of the picture's width.
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const [sx, sy] = [Math.floor(((x + 0.5) * part.width) / width), Math.floor(((y + 0.5) * part.height) / height)];
      for (let c = 0; c < 3; c++) whole.t[(y * width + x) * 3 + c] = t[(sy * part.width + sx) * 3 + c];
    }
  return densityMapOf(whole);
}

/** The rectangle around all pictures of a strip. */
function around(frames: readonly StripFrame[]): Area {
  const left = Math.min(...frames.map(({ area }) => area.left));
  const top = Math.min(...frames.map(({ area }) => area.top));
  return {
    left,
    top,
    width: Math.max(...frames.map(({ area }) => area.left + area.width)) - left,
    height: Math.max(...frames.map(({ area }) => area.top + area.height)) - top,
    tilt: 0,
  };
}

/** Film beyond a strip's pictures on which its codes lie, in parts of their size across it. */
const REBATE = 0.3;

/** Codes on the strip's own film: those that lie beside its pictures, and not beside another strip's. */
function codesOf(frames: readonly StripFrame[], codes: readonly EdgeCode[]): EdgeCode[] {
  return codes.filter(({ centre: [x, y] }) =>
    frames.some(({ area }) => {
      const [dx, dy] = [Math.abs(x - area.left - area.width / 2), Math.abs(y - area.top - area.height / 2)];
      return dx < (0.5 + REBATE) * area.width && dy < (0.5 + REBATE) * area.height;
    }),
  );
}

/** Which pictures make no frame because the view cuts them off, a sentence each. */
export const cutOffWarnings = ({ cutOff, frames }: FoundStrips): string[] =>
  cutOff.map(({ strip, side }) => {
    const row = new Set(frames.map((frame) => frame.strip)).size > 1 ? ` of strip ${strip + 1}` : "";
    return `a picture${row} is cut off at the ${side} and makes no frame.`;
  });
