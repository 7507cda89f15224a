/** Heals a scan so that it can be healed otherwise later, without a second copy of it. */
import type { LinearScan } from "../types.ts";
import { heal, healedAreas } from "./heal.ts";
import type { Spot } from "./spot.ts";

/** Heals spots in place as `heal` does. @returns what puts the scan's own pixels back */
export function healForNow(scan: LinearScan, spots: readonly Spot[]): () => void {
  const { data, channels } = scan;
  const rows: { readonly at: number; readonly own: Uint16Array }[] = [];
  for (const { x, y, radius } of spots.flatMap((spot) => healedAreas(spot, scan.width))) {
    const [left, right] = [Math.max(0, Math.floor(x - radius)), Math.min(scan.width, Math.ceil(x + radius) + 1)];
    const [top, bottom] = [Math.max(0, Math.floor(y - radius)), Math.min(scan.height, Math.ceil(y + radius) + 1)];
    if (left >= right) continue;
    for (let row = top; row < bottom; row++) {
      const at = (row * scan.width + left) * channels;
      rows.push({ at, own: data.slice(at, at + (right - left) * channels) });
    }
  }
  heal(scan, spots);
  return () => {
    for (const { at, own } of rows) data.set(own, at);
  };
}
