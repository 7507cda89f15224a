/** The small picture of a scan in a survey's report. */
import { smallGreyView } from "../../engine/image/small-view.ts";
import type { LinearScan } from "../../engine/types.ts";
import { encodePicture } from "../../scans/output/encode.ts";

/** A small picture of a scan for a survey's report, as the camera saw it: grey, a JPEG file's bytes. */
export interface SmallView {
  readonly width: number;
  readonly height: number;
  readonly bytes: Uint8Array;
}

/** Pixels across, at most. */
const WIDTH = 360;

export async function viewOf(scan: LinearScan): Promise<SmallView> {
  const view = smallGreyView(scan, WIDTH);
  const bytes = await encodePicture(view, { type: "jpeg", depth: 8, space: "srgb", quality: 78 }, {});
  return { width: view.width, height: view.height, bytes };
}
