/** The job that renders two states of a frame and measures their difference. */
import { pictureDifference, type PictureDifference } from "../../engine/colour/picture-difference.ts";
import { place } from "../../engine/image/geometry.ts";
import type { Raster } from "../../engine/types.ts";
import { type Difference, differenceScale, type ReviewPicture } from "../../review-report.ts";
import { encodePicture } from "../../scans/output/encode.ts";
import { drawPictures, type FrameSetup, lightSetup } from "../frame/develop.ts";
import { type OpenedFrame, openFrame } from "../frame/open-frame.ts";
import { exposureWarnings } from "../frame/warnings.ts";
import type { JobContext } from "../pool/job-context.ts";

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

/** Opens each scan once for both states, unless they heal or join it differently. */
function scanReader(long: number, context: JobContext) {
  const opened = new Map<string, Promise<OpenedFrame>>();
  const messages = new Set<string>();

  /** What opening it depends on. */
  const keyOf = ({ path, setup }: FrameState): string =>
    JSON.stringify([path, setup.spots, setup.join, setup.merge, setup.join && setup.light, setup.light.lens]);

  async function open({ path, setup }: FrameState): Promise<OpenedFrame> {
    const half = await openFrame(path, setup, { half: true, checkpoint });
    const { finalWidth, finalHeight } = place(half.scan, setup.framing);
    // Half the size is quicker, as long as it has the pixels that are wanted.
    return Math.max(finalWidth, finalHeight) >= long ? half : await openFrame(path, setup, { checkpoint });
  }

  return {
    warnings: () => [...messages],
    async draw(state: FrameState): Promise<Drawn> {
      const key = keyOf(state);
      const found = opened.get(key) ?? open(state);
      opened.set(key, found);
      const { scan, info, warnings, setup } = await found;
      for (const { message } of warnings) messages.add(message);
      for (const warning of exposureWarnings(lightSetup(state.setup.light, info))) messages.add(warning);
      const form = { space: "srgb", long, sharpen: 0 } as const;
      // The light of a joined scan is divided out already; look and framing are the state's own.
      const light = state.setup.join ? setup.light : state.setup.light;
      return drawPictures(scan, info, { ...state.setup, light }, [form], checkpoint)[0];
    },
  };

  function checkpoint(): void {
    context.checkpoint();
  }
}

const numbers = ({ mean, p95, max }: PictureDifference): Difference => ({ mean, p95, max });

const QUALITY = 88;

async function jpeg(picture: Raster<Uint8Array | Uint16Array>): Promise<ReviewPicture> {
  const spec = { type: "jpeg", depth: 8, space: "srgb", quality: QUALITY } as const;
  const { width, height } = picture;
  return { width, height, type: "jpeg", bytes: await encodePicture(picture, spec, {}) };
}

async function mapOf({ width, height, deltaE }: PictureDifference): Promise<ReviewPicture> {
  const data = new Uint8Array(width * height * 3);
  for (let i = 0; i < deltaE.length; i++) data.set(colourOf(deltaE[i]), i * 3);
  // Grain makes a map of noise: lossless it would be several times the size of both pictures.
  return jpeg({ width, height, channels: 3, data });
}

function colourOf(deltaE: number): readonly number[] {
  const above = differenceScale.findIndex(([at]) => at > deltaE);
  if (above < 0) return (differenceScale.at(-1) ?? []).slice(1);
  const [low, high] = [differenceScale[above - 1], differenceScale[above]];
  const part = (deltaE - low[0]) / (high[0] - low[0]);
  return [1, 2, 3].map((c) => Math.round(low[c] + (high[c] - low[c]) * part));
}
