/** The grid of the sheet: only tiles that are seen, or nearly so, are in the page. */
import { el } from "../dom.ts";
import { type GridLayout, gridHeight, gridLayout, tileAt, visibleTiles } from "../state/sheet-layout.ts";
import { t } from "../translate.ts";
import type { SheetSession } from "./sheet-session.ts";
import { makeTileElement, type TileElement } from "./tile-element.ts";
import { makeTilePictures, type PictureTile } from "./tile-pictures.ts";
import type { TilePainter } from "./tile-painter.ts";

export interface Grid {
  readonly element: HTMLElement;
  /** Lies over the tiles and scrolls with them; a rectangle is drawn on it. */
  readonly surface: HTMLElement;
  layout(): GridLayout;
  /** Brings a frame into view, and the focus to it. */
  focus(id: string): void;
  /** Rows that fit into the view. */
  page(): number;
}

export function makeGrid(session: SheetSession, painter: TilePainter): Grid {
  const surface = el("div", { class: "tiles" });
  const element = el(
    "div",
    { class: "grid", role: "listbox", "aria-multiselectable": "true", "aria-label": t("Frames"), tabindex: "-1" },
    surface,
  );
  const tiles = new Map<string, TileElement>();
  const spare: TileElement[] = [];
  const pictures = makeTilePictures(session, painter);
  let layout = gridLayout(1, 0, "small");
  let size = { width: 0, height: 0 };
  let due = false;
  let wantsFocus: string | undefined;

  function draw(): void {
    due = false;
    const { frames, ui } = session.store.get();
    if (size.width < 2) return; // hidden: sizes mean nothing now
    layout = gridLayout(size.width, frames.length, ui.size);
    surface.style.height = `${gridHeight(layout)}px`;
    const [first, end] = visibleTiles(layout, frames.length, element.scrollTop, size.height);
    const { focus } = session.store.get().selection;
    const shown = new Map(frames.slice(first, end).map((frame, k) => [frame.id, first + k]));
    // The tile with the focus stays in the page, or the focus would be lost with it.
    const focused = focus === undefined ? -1 : frames.findIndex(({ id }) => id === focus);
    if (focused >= 0 && !shown.has(frames[focused]!.id)) shown.set(frames[focused]!.id, focused);
    for (const [id, tile] of tiles) if (!shown.has(id)) release(id, tile);
    const wanted: PictureTile[] = [];
    for (const [id, index] of shown) {
      const tile = tiles.get(id) ?? take(id);
      tile.place(...tileAt(layout, index), layout.width, layout.height);
      const picture = tell(tile, index);
      if (picture) wanted.push(picture);
    }
    pictures.want(wanted);
    settleFocus();
  }

  /** Tells a tile what it shows; returns what its picture is to be. */
  function tell(tile: TileElement, index: number): PictureTile | undefined {
    const { frames, selection, counts, roll, earlier } = session.store.get();
    const frame = frames[index]!;
    const before = earlier?.shown ? earlier.frames.get(frame.id) : undefined;
    const absent = earlier?.shown === true && before === undefined;
    tile.tell({
      frame,
      selected: selection.chosen.has(frame.id),
      focused: selection.focus === frame.id,
      findings: counts?.[frame.id] ?? 0,
      wrong: roll?.problems.some((p) => p.frame === frame.id && p.severity !== "info") ?? false,
      place: index + 1,
      count: frames.length,
      absent,
    });
    const ratio = window.devicePixelRatio || 1;
    return {
      frame,
      look: before?.look ?? session.lookOf(frame),
      framing: before ?? frame,
      width: Math.round(layout.width * ratio),
      height: Math.round(layout.height * ratio),
      target: tile,
    };
  }

  function take(id: string): TileElement {
    const tile = spare.pop() ?? makeTileElement();
    tile.frame = id;
    tiles.set(id, tile);
    if (!tile.element.isConnected) surface.append(tile.element);
    tile.element.hidden = false;
    return tile;
  }

  function release(id: string, tile: TileElement): void {
    tiles.delete(id);
    pictures.drop(tile);
    tile.clear();
    tile.element.hidden = true;
    spare.push(tile);
  }

  function settleFocus(): void {
    const tile = wantsFocus === undefined ? undefined : tiles.get(wantsFocus);
    if (!tile) return;
    wantsFocus = undefined;
    tile.element.focus({ preventScroll: true });
  }

  function redraw(): void {
    if (due) return;
    due = true;
    requestAnimationFrame(draw);
  }

  function reveal(id: string): void {
    const index = session.store.get().frames.findIndex((frame) => frame.id === id);
    if (index < 0) return;
    const top = tileAt(layout, index)[1];
    if (top < element.scrollTop) element.scrollTop = top - 8;
    else if (top + layout.stepY > element.scrollTop + size.height) element.scrollTop = top + layout.stepY - size.height;
  }

  element.addEventListener("scroll", redraw, { passive: true });
  new ResizeObserver(([entry]) => {
    if (!entry) return;
    size = { width: entry.contentRect.width, height: entry.contentRect.height };
    redraw();
  }).observe(element);
  session.store.on(({ settings }) => {
    element.style.setProperty("--surround", `lab(${settings.surround}% 0 0)`);
    redraw();
  });

  return {
    element,
    surface,
    layout: () => layout,
    focus(id) {
      reveal(id);
      wantsFocus = id;
      redraw();
    },
    page: () => Math.max(1, Math.floor(size.height / layout.stepY)),
  };
}
