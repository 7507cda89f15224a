/** The job that renders a frame and writes its pictures. */
import { JobError } from "../../failure.ts";
import { basename } from "node:path";
import type { Raster, ScanInfo } from "../../engine/types.ts";
import { writeAtomic } from "../../scans/files/atomic.ts";
import { encodePicture, type EncodeSpec, type PictureMetadata } from "../../scans/output/encode.ts";
import type { ScanWarning } from "../../scans/errors.ts";
import { type Fingerprint, fingerprint, fingerprintOf } from "../../scans/files/fingerprint.ts";
import { drawPictures, type DrawnPicture, type FrameSetup, lightSetup, type PictureForm } from "../frame/develop.ts";
import { openFrame } from "../frame/open-frame.ts";
import { scanRegion } from "../frame/scan-region.ts";
import { freeMemory, keepScanMemory, takeScanMemory } from "../pool/scan-memory.ts";
import { exposureWarnings } from "../frame/warnings.ts";
import { checkLock } from "../frame/check-lock.ts";
import { stampOf } from "../files/content-hash.ts";
import { encodeSheet, type PrinterRequest } from "./encode-sheet.ts";
import type { JobContext } from "../pool/job-context.ts";

/** A picture to write. */
export interface PictureRequest {
  readonly output: string;
  /** Absolute path; its folder exists. */
  readonly path: string;
  /** What may be replaced; see WriteOptions. */
  readonly replace: boolean | string;
  /** The folder's mark. */
  readonly folder: string;
  readonly form: PictureForm;
  readonly spec: EncodeSpec;
  readonly metadata: PictureMetadata;
  /** How the colours of a sheet become its printer's; absent where they stay as they are. */
  readonly printer?: PrinterRequest;
}

export interface RenderFrame {
  /** Absolute path of the scan. */
  readonly path: string;
  readonly setup: FrameSetup;
  /** Where the scan shows other frames, too: whether some of them are rendered after this one. */
  readonly keepScan?: boolean;
  /** What the recipe was locked to; absent where it is not locked. */
  readonly locked?: Fingerprint;
  readonly pictures: readonly PictureRequest[];
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
export async function renderFrame(request: RenderFrame, context: JobContext): Promise<RenderedFrame> {
  const { setup, pictures } = request;
  const stamp = stampOf(request.path);
  await checkLock(request.path, request.locked);
  const { drawn, info, warnings, overScan } = await drawFrame(request, context);
  if (stampOf(request.path) !== stamp) throw changedMeanwhile(request.path);
  context.report(0.55);
  // The scan, and what decoding it left behind, is not needed any more: without this it stays until memory is short.
  freeMemory();
  const scanCamera = [info.make, info.model].filter(Boolean).join(" ") || undefined;
  const written: WrittenPicture[] = [];
  const messages = new Set([...warnings.map((w) => w.message), ...exposureWarnings(lightSetup(setup.light, info))]);
  for (const [k, picture] of pictures.entries()) {
    const raster = drawn[k] as DrawnPicture;
    drawn[k] = undefined;
    if (isOneColour(raster)) messages.add(ONE_COLOUR);
    const { width, height } = raster.sheet ?? raster;
    const metadata = { ...picture.metadata, scanCamera };
    const bytes = raster.sheet
      ? await encodeSheet(raster, raster.sheet, { ...picture, metadata })
      : await encodePicture(raster, picture.spec, metadata);
    context.checkpoint();
    const print = await writePicture(picture, bytes);
    written.push({ output: picture.output, path: picture.path, width, height, ...print });
    context.report(0.55 + (0.45 * (k + 1)) / pictures.length);
    context.checkpoint();
  }
  if (overScan) keepScanMemory(overScan);
  return { pictures: written, warnings: [...messages] };
}

const ONE_COLOUR =
  "The finished picture is of one colour throughout. Look at the scan, and at the frame's area, base, exposure and curve.";

/** Looks no further than the first pixel that differs. */
function isOneColour({ channels, data }: Raster<Uint16Array>): boolean {
  for (let i = channels; i < data.length; i++) if (data[i] !== data[i - channels]) return false;
  return true;
}

/** Writes a picture that nothing else may have come in place of, save the same picture by another run of the roll. */
export async function writePicture(
  { path, replace, folder }: Pick<PictureRequest, "path" | "replace" | "folder">,
  bytes: Uint8Array,
): Promise<Fingerprint> {
  const writing = writeAtomic(path, bytes, { replace, folder }).catch((error: unknown) => error);
  const [print, failure] = await Promise.all([fingerprintOf(bytes), writing]);
  if (failure === undefined) return print;
  const same = (failure as { code?: unknown }).code === "exists" && (await fingerprint(path)).sha256 === print.sha256;
  if (!same) throw failure;
  return print;
}

/** Half of one file and half of another may have been decoded. */
const changedMeanwhile = (path: string): JobError =>
  new JobError({
    code: "changed",
    message: `${basename(path)} was changed or deleted while it was read; nothing was written.`,
    remedy: "Render again when the scan is as it should be.",
    file: path,
  });

interface DrawnFrame {
  /** One for each order; taken out as they are encoded, so that their memory can be used again. */
  readonly drawn: (DrawnPicture | undefined)[];
  readonly info: ScanInfo;
  readonly warnings: readonly ScanWarning[];
  /** The scan's memory, where a picture lies in it. */
  readonly overScan?: Uint16Array;
}

async function drawFrame(
  { path, setup: request, keepScan, pictures }: RenderFrame,
  context: JobContext,
): Promise<DrawnFrame> {
  freeMemory(); // what the last frame left
  const forms = pictures.map((picture) => picture.form);
  const { scan, info, warnings, setup } = await openFrame(path, request, {
    keepScan,
    memory: takeScanMemory,
    part: (width, height) => scanRegion({ width, height }, request, forms),
    checkpoint: () => context.checkpoint(),
  });
  freeMemory();
  context.report(0.4);
  const drawn = drawPictures(scan, info, setup, forms, () => context.checkpoint(), { overScan: true });
  const overScan = drawn.some(({ data }) => data.buffer === scan.data.buffer) ? scan.data : undefined;
  return { drawn, info, warnings, overScan };
}
