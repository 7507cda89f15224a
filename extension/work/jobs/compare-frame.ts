import { pictureDifference, type PictureDifference } from "../../engine/colour/picture-difference.ts";
import { type Framing, place } from "../../engine/geometry.ts";
import type { Raster } from "../../engine/types.ts";
import { type Difference, differenceScale, type ReviewPicture } from "../../review-report.ts";
import { type DecodedScan, decodeScan } from "../../scans/decode.ts";
import { encodePicture } from "../../scans/encode.ts";
import { drawPictures, type FrameSetup, lightSetup, prepareScan } from "../develop.ts";
import { unknownExposure } from "../warnings.ts";
import type { JobContext } from "./context.ts";

/** A frame as one state of the recipe has it. */
export interface FrameState {
  /** Absolute path of the scan. */
  readonly path: string;
  readonly setup: FrameSetup;
}

export interface CompareFrame {
  readonly before?: FrameState;
  readonly after?: FrameState;
  /** Longest side of the pictures in pixels. */
  readonly long: number;
}

export interface ComparedFrame {
  readonly before?: ReviewPicture;
  readonly after?: ReviewPicture;
  /** Where both are there: ΔE00 of every pixel in colours, both drawn in the later framing. */
  readonly map?: ReviewPicture;
  readonly difference?: Difference;
  readonly warnings: readonly string[];
}

type Drawn = Raster<Uint16Array>;

/** Draws a frame as it was and as it is, small and in sRGB, and measures how far the two are apart. */
export async function compareFrame({ before, after, long }: CompareFrame, context: JobContext): Promise<ComparedFrame> {
  const reader = scanReader(long, context);
  const [was, is] = [before && (await reader.draw(before)), after && (await reader.draw(after))];
  context.report(0.5);
  const difference = before && after && is ? await compared(before, after, is) : undefined;
  context.report(0.8);
  return {
    ...(was ? { before: await jpeg(was) } : {}),
    ...(is ? { after: await jpeg(is) } : {}),
    ...(difference ? { map: await mapOf(difference), difference: numbers(difference) } : {}),
    warnings: reader.warnings(),
  };

  async function compared(old: FrameState, now: FrameState, drawn: Drawn): Promise<PictureDifference> {
    const { framing } = now.setup;
    const same = JSON.stringify(framing) === JSON.stringify(old.setup.framing);
    // A picture that shows another piece of the scan is compared by what both show: the colours within the later framing.
    const aligned = same && was ? was : await reader.draw({ ...old, setup: { ...old.setup, framing } });
    return pictureDifference(aligned, drawn, "srgb");
  }
}

/** Reads each scan once, whatever is drawn from it. */
function scanReader(long: number, context: JobContext) {
  const decoded = new Map<string, DecodedScan>();
  const said = new Set<string>();

  async function read(path: string, framing: Framing): Promise<DecodedScan> {
    const known = decoded.get(path);
    if (known) return known;
    const half = await decodeScan(path, { half: true });
    const { finalWidth, finalHeight } = place(half.scan, framing);
    // Half the size is quicker, as long as it has the pixels that are wanted.
    const found = Math.max(finalWidth, finalHeight) >= long ? half : await decodeScan(path);
    decoded.set(path, found);
    context.checkpoint();
    return found;
  }

  return {
    warnings: () => [...said],
    async draw({ path, setup }: FrameState): Promise<Drawn> {
      const { scan, info, warnings } = await read(path, setup.framing);
      for (const warning of [
        ...warnings.map((w) => w.message),
        ...unknownExposure(lightSetup(setup.light, info).unknown),
      ])
        said.add(warning);
      // Healing changes the samples, and the other state may name other specks.
      const own = setup.spots.length > 0 ? { ...scan, data: scan.data.slice() } : scan;
      prepareScan(own, setup);
      const form = { space: "srgb", long, sharpen: 0 } as const;
      return drawPictures(own, info, setup, [form], () => context.checkpoint())[0];
    },
  };
}

const numbers = ({ mean, p95, max }: PictureDifference): Difference => ({ mean, p95, max });

const QUALITY = 88;

async function jpeg(picture: Drawn): Promise<ReviewPicture> {
  const spec = { type: "jpeg", depth: 8, space: "srgb", quality: QUALITY } as const;
  const { width, height } = picture;
  return { width, height, type: "jpeg", bytes: await encodePicture(picture, spec, {}) };
}

async function mapOf({ width, height, deltaE }: PictureDifference): Promise<ReviewPicture> {
  const data = new Uint8Array(width * height * 3);
  for (let i = 0; i < deltaE.length; i++) data.set(colourOf(deltaE[i]), i * 3);
  const spec = { type: "png", depth: 8, space: "srgb" } as const;
  return { width, height, type: "png", bytes: await encodePicture({ width, height, channels: 3, data }, spec, {}) };
}

function colourOf(deltaE: number): readonly number[] {
  const above = differenceScale.findIndex(([at]) => at > deltaE);
  if (above < 0) return (differenceScale.at(-1) ?? []).slice(1);
  const [low, high] = [differenceScale[above - 1], differenceScale[above]];
  const part = (deltaE - low[0]) / (high[0] - low[0]);
  return [1, 2, 3].map((c) => Math.round(low[c] + (high[c] - low[c]) * part));
}
