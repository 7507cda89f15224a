/** The grid of the sheet: only tiles that are seen, or nearly so, are in the page. */
import { el } from "../dom.ts";
import { type GridLayout, gridHeight, gridLayout, tileAt, visibleTiles } from "../state/sheet/sheet-layout.ts";
import { t } from "../translate.ts";
import type { SheetModel, SheetSession } from "./sheet-session.ts";
import { makeTileElement, type TileElement } from "./tiles/tile-element.ts";
import { makeTilePictures, type PictureTile, type TilePictures } from "./tiles/tile-pictures.ts";
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

/**
 * Tiles near the view that are filled in one display frame: style, layout and paint come after the code, for each of them
 * (tests/bench/sheet.ts). Rows are filled before they are seen, so few at a time are enough.
 */
const MAX_FRESH = 3;
/** Tiles that lie ready beyond those in use. */
const MAX_SPARE = 24;

/** What a tile shows, as of which state of the sheet. */
interface ShownTile {
  readonly model: SheetModel;
  readonly index: number;
  readonly layout: string;
  readonly picture: PictureTile;
}

/** The grid of a sheet, whose tiles the painter fills. */
export const makeGrid = (session: SheetSession, painter: TilePainter): Grid => new TileGrid(session, painter);

class TileGrid implements Grid {
  readonly element: HTMLElement;
  readonly surface = el("div", { class: "tiles" });
  readonly #session: SheetSession;
  readonly #pictures: TilePictures;
  readonly #tiles = new Map<string, TileElement>();
  readonly #spare: TileElement[] = [];
  readonly #shown = new WeakMap<TileElement, ShownTile>();
  #layout = gridLayout(1, 0, "small");
  #size = { width: 0, height: 0 };
  #scrollTop = 0;
  #due = false;
  #preparing = false;
  #wantsFocus: string | undefined;
  /** What was drawn last: scrolling within a row changes nothing. */
  #drawn: { readonly model: SheetModel; readonly key: string } | undefined;

  constructor(session: SheetSession, painter: TilePainter) {
    this.#session = session;
    this.#pictures = makeTilePictures(session, painter);
    this.element = el(
      "div",
      { class: "grid", role: "listbox", "aria-multiselectable": "true", "aria-label": t("Frames"), tabindex: "-1" },
      this.surface,
    );
    this.#listen();
  }

  layout(): GridLayout {
    return this.#layout;
  }

  focus(id: string): void {
    this.#reveal(id);
    this.#wantsFocus = id;
    this.#redraw();
  }

  page(): number {
    return Math.max(1, Math.floor(this.#size.height / this.#layout.stepY));
  }

  #listen(): void {
    this.element.addEventListener(
      "scroll",
      () => {
        // Read here, where it costs nothing: a frame later it would force a layout.
        this.#scrollTop = this.element.scrollTop;
        this.#redraw();
      },
      { passive: true },
    );
    new ResizeObserver(([entry]) => {
      if (!entry) return;
      this.#size = { width: entry.contentRect.width, height: entry.contentRect.height };
      this.#redraw();
    }).observe(this.element);
    this.#session.store.on(({ settings }) => {
      this.element.style.setProperty("--surround", `lab(${settings.surround}% 0 0)`);
      this.#redraw();
    });
  }

  #redraw(): void {
    if (this.#due) return;
    this.#due = true;
    requestAnimationFrame(() => this.#draw());
  }

  #draw(): void {
    this.#due = false;
    const model = this.#session.store.get();
    const { frames, ui } = model;
    const { width, height } = this.#size;
    if (width < 2) return; // hidden: sizes mean nothing now
    this.#layout = gridLayout(width, frames.length, ui.size);
    const range = visibleTiles(this.#layout, frames.length, this.#scrollTop, height);
    const key = `${range.join(" ")} ${this.#layoutKey()} ${height}`;
    if (this.#drawn?.model !== model || this.#drawn.key !== key) {
      this.#drawn = { model, key };
      const whole = `${gridHeight(this.#layout)}px`;
      if (this.surface.style.height !== whole) this.surface.style.height = whole;
      this.#fill(model, this.#indices(model, range));
    }
    this.#settleFocus();
  }

  /** The frames that have a tile, with their places in the order. */
  #indices({ frames, selection }: SheetModel, [first, end]: readonly [number, number]): Map<string, number> {
    const shown = new Map(frames.slice(first, end).map((frame, k) => [frame.id, first + k]));
    // The tile with the focus stays in the page, or the focus would be lost with it.
    const focused = selection.focus === undefined ? -1 : frames.findIndex(({ id }) => id === selection.focus);
    if (focused >= 0 && !shown.has(frames[focused]!.id)) shown.set(frames[focused]!.id, focused);
    return shown;
  }

  #fill(model: SheetModel, shown: ReadonlyMap<string, number>): void {
    for (const [id, tile] of this.#tiles) if (!shown.has(id)) this.#release(id, tile);
    const wanted: PictureTile[] = [];
    let fresh = 0;
    for (const [id, index] of shown) {
      // Rows come into view over several display frames: so much of the time of each is left to everything else.
      if (!this.#tiles.has(id) && ++fresh > MAX_FRESH && !this.#isSeen(index)) {
        this.#drawn = undefined;
        this.#redraw();
      } else wanted.push(this.#show(this.#tiles.get(id) ?? this.#take(id), model, index));
    }
    this.#pictures.want(wanted);
    this.#prepare();
  }

  /** Whether a tile is in view, and not only near it. */
  #isSeen(index: number): boolean {
    const top = tileAt(this.#layout, index)[1] - this.#scrollTop;
    return top < this.#size.height && top + this.#layout.stepY > 0;
  }

  /** Makes tiles in idle time, so that none has to be made while the grid scrolls. */
  #prepare(): void {
    if (this.#preparing || this.#spare.length >= MAX_SPARE) return;
    this.#preparing = true;
    requestIdleCallback((idle) => {
      this.#preparing = false;
      const wanted = Math.min(MAX_SPARE, this.#layout.columns * 3);
      while (this.#spare.length < wanted && idle.timeRemaining() > 1) {
        const tile = makeTileElement();
        tile.element.hidden = true;
        this.surface.append(tile.element);
        this.#spare.push(tile);
      }
      if (this.#spare.length < wanted) this.#prepare();
    });
  }

  /** Most tiles stay as they are while others come and go. */
  #show(tile: TileElement, model: SheetModel, index: number): PictureTile {
    const layout = this.#layoutKey();
    const known = this.#shown.get(tile);
    if (known?.model === model && known.index === index && known.layout === layout) return known.picture;
    tile.place(...tileAt(this.#layout, index), this.#layout.width, this.#layout.height);
    const picture = this.#tell(tile, model, index);
    this.#shown.set(tile, { model, index, layout, picture });
    return picture;
  }

  #layoutKey(): string {
    return `${this.#layout.columns} ${this.#layout.width} ${window.devicePixelRatio}`;
  }

  /** Tells a tile what it shows; returns what its picture is to be. */
  #tell(tile: TileElement, model: SheetModel, index: number): PictureTile {
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
      look: before?.look ?? this.#session.lookOf(frame),
      framing: before ?? frame,
      // Within the tile's border.
      width: Math.round((this.#layout.width - 2) * ratio),
      height: Math.round(this.#layout.height * ratio),
      target: tile,
    };
  }

  #take(id: string): TileElement {
    const tile = this.#spare.pop() ?? makeTileElement();
    tile.frame = id;
    this.#tiles.set(id, tile);
    if (!tile.element.isConnected) this.surface.append(tile.element);
    tile.element.hidden = false;
    return tile;
  }

  #release(id: string, tile: TileElement): void {
    this.#tiles.delete(id);
    this.#shown.delete(tile);
    this.#pictures.drop(tile);
    tile.clear();
    tile.element.hidden = true;
    this.#spare.push(tile);
  }

  #settleFocus(): void {
    const tile = this.#wantsFocus === undefined ? undefined : this.#tiles.get(this.#wantsFocus);
    if (!tile) return;
    this.#wantsFocus = undefined;
    tile.element.focus({ preventScroll: true });
  }

  #reveal(id: string): void {
    const index = this.#session.store.get().frames.findIndex((frame) => frame.id === id);
    if (index < 0) return;
    const top = tileAt(this.#layout, index)[1];
    const bottom = top + this.#layout.stepY;
    if (top < this.element.scrollTop) this.element.scrollTop = top - 8;
    else if (bottom > this.element.scrollTop + this.#size.height) this.element.scrollTop = bottom - this.#size.height;
  }
}
