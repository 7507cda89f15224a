/** The job that reads a lens's faults off one scan. */
import { filmPlane, pixelBox } from "../../engine/flat-field/film-plane.ts";
import { type LateralReading, readLateralColour } from "../../engine/lens/lateral-colour.ts";
import type { Area, ScanInfo } from "../../engine/types.ts";
import { decodeScan } from "../../scans/decode.ts";
import { type FrameLight, lightSetup } from "../frame/develop.ts";
import type { JobContext } from "../pool/job-context.ts";

export interface ReadLens {
  readonly path: string;
  readonly area: Area;
  readonly light: FrameLight;
}

export interface LensReading {
  /** Full size of the scan, in pixels. */
  readonly width: number;
  readonly height: number;
  /** The camera's lens, as the file names it. */
  readonly lens: ScanInfo["lens"];
  readonly lateral: LateralReading;
}

/** Reads what one scan shows of its lens, as it was photographed: nothing is corrected. */
export async function readLens({ path, area, light }: ReadLens, context: JobContext): Promise<LensReading> {
  const { scan, info } = await decodeScan(path, { half: true });
  context.checkpoint();
  const plane = filmPlane(scan, lightSetup(light, info));
  const box = pixelBox(plane, area.left, area.top, area.left + area.width, area.top + area.height);
  const lateral = scan.channels === 3 ? readLateralColour(plane, box) : { red: [], blue: [] };
  return { width: info.width, height: info.height, lens: info.lens, lateral };
}
