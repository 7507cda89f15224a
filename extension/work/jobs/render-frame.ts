import { createHash } from "node:crypto";
import { writeAtomic } from "../../scans/atomic.ts";
import { decodeScan } from "../../scans/decode.ts";
import { encodePicture, type EncodeSpec, type PictureMetadata } from "../../scans/encode.ts";
import type { Fingerprint } from "../../scans/fingerprint.ts";
import { drawPicture, type FrameSetup, lightSetup, type PictureForm, prepareScan } from "../develop.ts";
import { unknownExposure } from "../warnings.ts";
import { checkLock } from "./check-lock.ts";
import type { JobContext } from "./context.ts";

/** A picture to write. */
export interface PictureOrder {
  readonly output: string;
  /** Absolute path; its folder exists. */
  readonly path: string;
  readonly form: PictureForm;
  readonly spec: EncodeSpec;
  readonly metadata: PictureMetadata;
}

export interface RenderFrame {
  /** Absolute path of the scan. */
  readonly path: string;
  readonly setup: FrameSetup;
  /** What the recipe was locked to; absent where it is not locked. */
  readonly locked?: Fingerprint;
  readonly pictures: readonly PictureOrder[];
}

/** A picture that was written. */
export interface WrittenPicture extends Fingerprint {
  readonly output: string;
  readonly path: string;
  readonly width: number;
  readonly height: number;
}

export interface RenderedFrame {
  readonly pictures: readonly WrittenPicture[];
  readonly warnings: readonly string[];
}

/**
 * Renders one frame: its scan is decoded once, then each picture is drawn, encoded and put in place as a whole. A
 * failure leaves no part of a file.
 */
export async function renderFrame(order: RenderFrame, context: JobContext): Promise<RenderedFrame> {
  const { path, setup, pictures } = order;
  const steps = 1 + 2 * pictures.length;
  let step = 0;
  const advance = (): void => {
    context.report(++step / steps);
    context.checkpoint();
  };
  await checkLock(path, order.locked);
  const { scan, info, warnings } = await decodeScan(path);
  prepareScan(scan, setup);
  advance();
  const written: WrittenPicture[] = [];
  for (const picture of pictures) {
    const drawn = drawPicture(scan, info, setup, picture.form, () => context.checkpoint());
    advance();
    const metadata = {
      ...picture.metadata,
      scanCamera: [info.make, info.model].filter(Boolean).join(" ") || undefined,
    };
    const bytes = await encodePicture(drawn, picture.spec, metadata);
    context.checkpoint();
    await writeAtomic(picture.path, bytes);
    const sha256 = createHash("sha256").update(bytes).digest("hex");
    const { width, height } = drawn;
    written.push({ output: picture.output, path: picture.path, width, height, size: bytes.length, sha256 });
    advance();
  }
  const { unknown } = lightSetup(setup.light, info);
  return { pictures: written, warnings: [...warnings.map((w) => w.message), ...unknownExposure(unknown)] };
}
