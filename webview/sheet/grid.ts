/** The grid of the sheet: only tiles that are seen, or nearly so, are in the page. */
import { el } from "../dom.ts";
import { type GridLayout, gridHeight, gridLayout, tileAt, visibleTiles } from "../state/sheet/sheet-layout.ts";
import { t } from "../translate.ts";
import type { SheetModel, SheetSession } from "./sheet-session.ts";
import { makeTileElement, type TileElement } from "./tiles/tile-element.ts";
import { makeTilePictures, type PictureTile } from "./tiles/tile-pictures.ts";
import type { TilePainter } from "./tiles/tile-painter.ts";

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

/** Milliseconds of a display frame in which tiles are made, and how many are made whatever the time. */
const MAX_TIME = 2;
const MIN_FRESH = 2;

/** What a tile shows, as of which state of the sheet. */
interface ShownTile {
  readonly model: SheetModel;
  readonly index: number;
  readonly layout: string;
  readonly picture: PictureTile;
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
  let scrollTop = 0;
  let due = false;
  let wantsFocus: string | undefined;

  /** What was drawn last: scrolling within a row changes nothing. */
  let drawn: { readonly model: SheetModel; readonly key: string } | undefined;
  const shownTiles = new WeakMap<TileElement, ShownTile>();

  function draw(): void {
    due = false;
    const model = session.store.get();
    const { frames, ui } = model;
    if (size.width < 2) return; // hidden: sizes mean nothing now
    layout = gridLayout(size.width, frames.length, ui.size);
    const range = visibleTiles(layout, frames.length, scrollTop, size.height);
    const key = `${range.join(" ")} ${layoutKey()} ${size.height}`;
    if (drawn?.model !== model || drawn.key !== key) {
      drawn = { model, key };
      const height = `${gridHeight(layout)}px`;
      if (surface.style.height !== height) surface.style.height = height;
      fill(model, range);
    }
    settleFocus();
  }

  function fill(model: SheetModel, [first, end]: readonly [number, number]): void {
    const { frames, selection } = model;
    const shown = new Map(frames.slice(first, end).map((frame, k) => [frame.id, first + k]));
    // The tile with the focus stays in the page, or the focus would be lost with it.
    const focused = selection.focus === undefined ? -1 : frames.findIndex(({ id }) => id === selection.focus);
    if (focused >= 0 && !shown.has(frames[focused]!.id)) shown.set(frames[focused]!.id, focused);
    for (const [id, tile] of tiles) if (!shown.has(id)) release(id, tile);
    const wanted: PictureTile[] = [];
    const start = performance.now();
    let fresh = 0;
    for (const [id, index] of shown) {
      // Rows come into view over several display frames: so much of the time of each is left to everything else.
      if (!tiles.has(id) && ++fresh > MIN_FRESH && performance.now() - start > MAX_TIME) {
        drawn = undefined;
        redraw();
        continue;
      }
      const tile = tiles.get(id) ?? take(id);
      let known = shownTiles.get(tile);
      // Most tiles stay as they are while others come and go.
      if (known?.model !== model || known.index !== index || known.layout !== layoutKey()) {
        tile.place(...tileAt(layout, index), layout.width, layout.height);
        known = { model, index, layout: layoutKey(), picture: tell(tile, model, index) };
        shownTiles.set(tile, known);
      }
      wanted.push(known.picture);
    }
    pictures.want(wanted);
  }

  const layoutKey = (): string => `${layout.columns} ${layout.width} ${window.devicePixelRatio}`;

  /** Tells a tile what it shows; returns what its picture is to be. */
  function tell(tile: TileElement, model: SheetModel, index: number): PictureTile {
    const { frames, selection, counts, roll, earlier } = model;
    const frame = frames[index]!;
    const before = earlier?.shown ? earlier.frames.get(frame.id) : undefined;
    tile.tell({
      frame,
      selected: selection.chosen.has(frame.id),
      focused: selection.focus === frame.id,
      findings: counts?.[frame.id] ?? 0,
      wrong: roll?.problems.some((p) => p.frame === frame.id && p.severity !== "info") ?? false,
      place: index + 1,
      count: frames.length,
      absent: earlier?.shown === true && before === undefined,
    });
    const ratio = window.devicePixelRatio || 1;
    return {
      frame,
      look: before?.look ?? session.lookOf(frame),
      framing: before ?? frame,
      // Within the tile's border.
      width: Math.round((layout.width - 2) * ratio),
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
    shownTiles.delete(tile);
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

  element.addEventListener(
    "scroll",
    () => {
      // Read here, where it costs nothing: a frame later it would force a layout.
      scrollTop = element.scrollTop;
      redraw();
    },
    { passive: true },
  );
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
