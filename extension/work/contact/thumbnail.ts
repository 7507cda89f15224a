/** The job that renders a frame as a small picture. */
import { place } from "../../engine/image/geometry.ts";
import { drawPictures, type FrameSetup } from "../frame/develop.ts";
import { openFrame } from "../frame/open-frame.ts";
import type { JobContext } from "../pool/job-context.ts";

export interface Thumbnail {
  readonly path: string;
  readonly setup: FrameSetup;
  /** Where the scan shows other frames, too: whether some of them are drawn after this one. */
  readonly keepScan?: boolean;
  /** Width and height that it has to fit into. */
  readonly box: readonly [width: number, height: number];
}

/** A small sRGB picture. */
export interface SmallPicture {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly data: Uint8Array;
}

/** Draws a frame small, from a half-size decoding. */
export async function thumbnail(
  { path, setup: request, keepScan, box }: Thumbnail,
  context: JobContext,
): Promise<SmallPicture> {
  const opened = await openFrame(path, request, { half: true, keepScan, checkpoint: () => context.checkpoint() });
  const { scan, info, setup } = opened;
  const { finalWidth, finalHeight } = place(scan, setup.framing);
  const fit = Math.min(box[0] / finalWidth, box[1] / finalHeight);
  const long = Math.max(1, Math.floor(Math.max(finalWidth, finalHeight) * fit));
  const form = { space: "srgb", long, sharpen: 0.4 } as const;
  const [picture] = drawPictures(scan, info, setup, [form], () => context.checkpoint());
  const { width, height, channels, data } = picture;
  const bytes = new Uint8Array(data.length);
  for (let i = 0; i < data.length; i++) bytes[i] = (data[i] + 128) / 257;
  return { width, height, channels, data: bytes };
}
