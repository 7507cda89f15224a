/** Whether anything parts a scan's picture at all: a quick look, before strips are searched for. */
import { PICTURE, type PictureMap, transposed } from "./picture-map.ts";

/** The middle of the scan, in parts of its sides: along the line that is looked for, and across it. */
const MIDDLE = [0.25, 0.75] as const;
const INNER = [0.06, 0.94] as const;
/** Pieces that the line is looked at by; within one it may lean, and be picture by this part (dust, marks, blur). */
const PIECES = 16;
const MAX_PICTURE = 0.25;
/** Steepest lean, as a tangent: a little over that of a strip. */
const MAX_LEAN = 0.08;

/**
 * Whether a line without picture (film, holder, or light beside it) crosses the middle of the scan, from top to bottom or
 * from side to side. Where several pictures lie on a scan, a gap between two of them or between two strips does so; on a
 * scan of one picture only a night's black does.
 */
export const isCrossedByFilm = (map: PictureMap): boolean => isCrossedDown(map) || isCrossedDown(transposed(map));

function isCrossedDown({ width, height, kind }: PictureMap): boolean {
  const rows = Math.floor(((MIDDLE[1] - MIDDLE[0]) * height) / PIECES);
  const [from, to] = INNER.map((part) => Math.round(part * width));
  const reach = Math.ceil(MAX_LEAN * rows);
  const most = MAX_PICTURE * rows;
  let reached = new Uint8Array(width).fill(1, from, to);
  const pictures = new Uint16Array(width);
  for (let piece = 0; piece < PIECES; piece++) {
    const top = Math.floor(MIDDLE[0] * height) + piece * rows;
    pictures.fill(0);
    for (let y = top; y < top + rows; y++)
      for (let x = from, p = y * width + from; x < to; x++, p++) if (kind[p] === PICTURE) pictures[x]++;
    const next = new Uint8Array(width);
    let any = false;
    let last = -Infinity;
    for (let x = from; x < to + reach; x++) {
      // Whether a column within reach was come to: the last one that was, up to `reach` further on.
      if (x < to && reached[x]) last = x;
      const at = x - reach;
      if (at < from || last < at - reach || pictures[at] > most) continue;
      next[at] = 1;
      any = true;
    }
    if (!any) return false;
    reached = next;
  }
  return true;
}
