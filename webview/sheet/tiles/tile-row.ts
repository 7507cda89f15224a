/**
 * One row of the grid: its tiles, and below them one canvas with the pictures of them all. The browser makes a layer of
 * every canvas, and a hundred layers make scrolling slow (tests/bench/sheet.ts).
 */
import { el } from "../../dom.ts";
import { GAP, type GridLayout, tileAt } from "../../state/sheet/sheet-layout.ts";
import { makeTileElement, type TileElement } from "./tile-element.ts";

export interface TileRow {
  readonly element: HTMLElement;
  /** As many as the grid has columns. */
  readonly tiles: readonly TileElement[];
  /** Gives tiles and canvas the sizes of a layout; all tiles are empty after a change. */
  lay(layout: GridLayout): void;
  /** @param y upper edge in CSS pixels, gap included */
  place(y: number): void;
}

/** Width of a tile's border in CSS pixels: pictures lie within. */
const BORDER = 1;

export function makeTileRow(): TileRow {
  const canvas = el("canvas", { "aria-hidden": "true" });
  const element = el("div", { class: "sheet-row", role: "presentation" }, canvas);
  const context = canvas.getContext("2d", { willReadFrequently: true });
  const tiles: TileElement[] = [];
  let laid = "";
  let size = { width: 0, height: 0, ratio: 1, left: (_column: number): number => 0 };

  const drawIn =
    (column: number) =>
    (picture: ImageBitmap | undefined): void => {
      const { width, height, ratio, left } = size;
      const x = Math.round((left(column) + BORDER) * ratio);
      context?.clearRect(x, 0, width, height);
      if (!picture) return;
      // A picture for tiles of another size is scaled until its successor comes.
      const scale = Math.min(1, width / picture.width, height / picture.height);
      const [w, h] = [Math.round(picture.width * scale), Math.round(picture.height * scale)];
      context?.drawImage(picture, x + ((width - w) >> 1), (height - h) >> 1, w, h);
    };

  return {
    element,
    tiles,
    lay(layout) {
      const ratio = window.devicePixelRatio || 1;
      const now = `${layout.columns} ${layout.width} ${layout.height} ${ratio}`;
      if (now === laid) return;
      laid = now;
      size = {
        width: Math.round((layout.width - 2 * BORDER) * ratio),
        height: Math.round(layout.height * ratio),
        ratio,
        left: (column) => tileAt(layout, column)[0],
      };
      canvas.width = Math.ceil(layout.columns * layout.stepX * ratio);
      canvas.height = size.height;
      canvas.style.width = `${canvas.width / ratio}px`;
      canvas.style.top = `${GAP + BORDER}px`;
      element.style.height = `${layout.stepY + GAP}px`;
      element.style.setProperty("--tile-width", `${layout.width}px`);
      element.style.setProperty("--tile-height", `${layout.height}px`);
      while (tiles.length > layout.columns) tiles.pop()!.element.remove();
      while (tiles.length < layout.columns) {
        const tile = makeTileElement(drawIn(tiles.length));
        tiles.push(tile);
        element.append(tile.element);
      }
    },
    place(y) {
      element.style.top = `${y}px`;
    },
  };
}
