/** Keys that are equal where two states of a recipe ask for the same picture. */
import { canonicalJson, pictureFacts } from "../resolve/canonical.ts";
import type { ResolvedFrame } from "../resolve/resolve.ts";

/** Equal keys ask for the same picture, whatever form it is written in, as long as the scans are the same files. */
export function pictureKey(frame: ResolvedFrame): string {
  // Without a blank, the scan that the base was read from tells how the light was exposed.
  const reference = frame.light.blank ? undefined : frame.base.read?.scan.name;
  return canonicalJson({ keys: pictureFacts(frame), reference });
}

/** Whether two recipes of a frame ask for the same piece of the scan, turned the same way. */
export const sameFraming = (a: ResolvedFrame, b: ResolvedFrame): boolean =>
  a.turn === b.turn && a.mirror === b.mirror && canonicalJson(a.area) === canonicalJson(b.area);
