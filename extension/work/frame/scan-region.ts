/** The part of a scan that a frame's pictures need. */
import { type HealedArea, healedAreas } from "../../engine/image/heal.ts";
import { spanOf } from "../../engine/image/resample.ts";
import type { Part } from "../../scans/raw/mosaic.ts";
import { type FrameSetup, type PictureForm, placeForm } from "./develop.ts";

/**
 * The part of a scan of that size that a frame's pictures are made of, with what its specks are patched with. The rest
 * need not be made.
 */
export function scanRegion(
  size: { readonly width: number; readonly height: number },
  { framing, spots }: Pick<FrameSetup, "framing" | "spots">,
  forms: readonly PictureForm[],
): Part {
  const spans = forms.map((form) => spanOf(placeForm(size, framing, form).placement));
  let left = Math.min(...spans.map((span) => span.from));
  let top = Math.min(...spans.map((span) => span.firstRow));
  let right = Math.max(...spans.map((span) => span.to));
  let bottom = Math.max(...spans.map((span) => span.lastRow + 1));
  const touches = ({ x, y, radius }: HealedArea): boolean =>
    x + radius > left && x - radius < right && y + radius > top && y - radius < bottom;
  // What a speck is patched with may have been healed itself, so each one that is reached can reach further.
  const apart = new Set(spots.flatMap((spot) => healedAreas(spot, size.width)));
  for (;;) {
    const area = [...apart].find(touches);
    if (!area) break;
    apart.delete(area);
    const { x, y, reach } = area;
    left = Math.max(0, Math.min(left, Math.floor(x - reach)));
    top = Math.max(0, Math.min(top, Math.floor(y - reach)));
    right = Math.min(size.width, Math.max(right, Math.ceil(x + reach)));
    bottom = Math.min(size.height, Math.max(bottom, Math.ceil(y + reach)));
  }
  return { left, top, width: right - left, height: bottom - top };
}
