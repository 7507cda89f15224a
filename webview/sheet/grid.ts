/** The grid of the sheet: only rows that are seen, or nearly so, are in the page. */
import type { FrameEntry } from "../../extension/messages.ts";
import { el } from "../dom.ts";
import { type GridLayout, gridHeight, gridLayout, tileAt, visibleTiles } from "../state/sheet/sheet-layout.ts";
import { t } from "../translate.ts";
import type { SheetModel, SheetSession } from "./sheet-session.ts";
import type { TileElement } from "./tiles/tile-element.ts";
import { makeTilePictures, type PictureTile, type TilePictures } from "./tiles/tile-pictures.ts";
import type { TilePainter } from "./tiles/tile-painter.ts";
import { makeTileRow, type TileRow } from "./tiles/tile-row.ts";
import { TilePicture } from "./tiles/tile-picture.ts";

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
/** Rows that lie ready beyond those in use. */
const MAX_SPARE = 3;

/** What a tile shows, as of which state of the sheet. */
interface ShownTile {
  readonly model: SheetModel;
  readonly frame: FrameEntry;
  readonly index: number;
  readonly layout: string;
  readonly picture: PictureTile;
}

/** The grid of a sheet, whose tiles the painter fills. */
export const makeGrid = (session: SheetSession, painter: TilePainter): Grid => new TileGrid(session, painter);

class TileGrid implements Grid {
  readonly element: HTMLElement;
  readonly surface = el("div", { class: "tiles", role: "presentation" });
  readonly #session: SheetSession;
  readonly #pictures: TilePictures;
  /** Rows of the page by their place in the grid. */
  readonly #rows = new Map<number, TileRow>();
  readonly #spare: TileRow[] = [];
  /** Pictures of the frames that have a tile: they go with their frame where the order changes. */
  readonly #frames = new Map<string, TilePicture>();
  readonly #shown = new WeakMap<TileElement, ShownTile>();
  #layout = gridLayout(1, 0, "small");
  #size = { width: 0, height: 0 };
  #scrollTop = 0;
  /** The sizes that the rows in the page have. */
  #laid = "";
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
      this.#fill(model, range);
    }
    this.#settleFocus();
  }

  /** The rows that are in the page: the row of the focus stays, or the focus would be lost with its tile. */
  #wantedRows({ frames, selection }: SheetModel, [first, end]: readonly [number, number]): ReadonlySet<number> {
    const { columns } = this.#layout;
    const wanted = new Set<number>();
    for (let index = first; index < end; index += columns) wanted.add(Math.floor(index / columns));
    const focused = selection.focus === undefined ? -1 : frames.findIndex(({ id }) => id === selection.focus);
    if (focused >= 0) wanted.add(Math.floor(focused / columns));
    return wanted;
  }

  #fill(model: SheetModel, range: readonly [number, number]): void {
    const { frames } = model;
    const { columns } = this.#layout;
    const rows = this.#wantedRows(model, range);
    // A frame may get another tile: the keyboard goes with it, unless it is at work outside the panel, as in a dialog.
    if (document.hasFocus() && this.surface.contains(document.activeElement))
      this.#wantsFocus ??= model.selection.focus;
    this.#release(rows);
    const gone = new Set(this.#frames.keys());
    const wanted: PictureTile[] = [];
    let fresh = 0;
    for (const at of rows) {
      const row = this.#rows.get(at) ?? this.#take(at);
      for (let column = 0; column < columns; column++) {
        const index = at * columns + column;
        const frame = frames[index];
        const tile = row.tiles[column]!;
        if (!frame) {
          tile.clear();
          continue;
        }
        gone.delete(frame.id);
        // Rows come into view over several display frames: so much of the time of each is left to everything else.
        if (tile.element.hidden && ++fresh > MAX_FRESH && !this.#isSeen(index)) {
          this.#drawn = undefined;
          this.#redraw();
        } else wanted.push(this.#show(tile, model, index));
      }
    }
    for (const id of gone) this.#forget(id);
    this.#pictures.want(wanted);
    this.#prepare();
  }

  /** Whether a tile is in view, and not only near it. */
  #isSeen(index: number): boolean {
    const top = tileAt(this.#layout, index)[1] - this.#scrollTop;
    return top < this.#size.height && top + this.#layout.stepY > 0;
  }

  /** Makes rows in idle time, so that none has to be made while the grid scrolls. */
  #prepare(): void {
    if (this.#preparing || this.#spare.length >= MAX_SPARE) return;
    this.#preparing = true;
    requestIdleCallback((idle) => {
      this.#preparing = false;
      if (idle.timeRemaining() > 4) this.#spare.push(this.#make());
      this.#prepare();
    });
  }

  /** Most tiles stay as they are while others come and go. */
  #show(tile: TileElement, model: SheetModel, index: number): PictureTile {
    const layout = this.#layoutKey();
    const frame = model.frames[index]!;
    const known = this.#shown.get(tile);
    if (known?.model === model && known.index === index && known.layout === layout && tile.frame === frame.id)
      return known.picture;
    let target = this.#frames.get(frame.id);
    if (!target) this.#frames.set(frame.id, (target = new TilePicture(frame.id)));
    const picture = this.#tell(tile, model, index, target);
    target.attach(tile);
    this.#shown.set(tile, { model, frame, index, layout, picture });
    return picture;
  }

  #layoutKey(): string {
    return `${this.#layout.columns} ${this.#layout.width} ${window.devicePixelRatio}`;
  }

  /** Tells a tile what it shows; returns what its picture is to be. */
  #tell(tile: TileElement, model: SheetModel, index: number, target: TilePicture): PictureTile {
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
      target,
    };
  }

  #make(): TileRow {
    const row = makeTileRow();
    row.lay(this.#layout);
    this.surface.append(row.element);
    return row;
  }

  /** A row at its place in the grid, whose tiles are still empty. */
  #take(at: number): TileRow {
    const row = this.#spare.pop() ?? this.#make();
    this.#rows.set(at, row);
    row.lay(this.#layout);
    row.place(at * this.#layout.stepY);
    return row;
  }

  /** Puts away the rows that are not wanted, and all of them where tiles have another size. */
  #release(wanted: ReadonlySet<number>): void {
    const isLaid = this.#laid === this.#layoutKey();
    this.#laid = this.#layoutKey();
    for (const [at, row] of this.#rows) {
      if (wanted.has(at) && isLaid) continue;
      this.#rows.delete(at);
      for (const tile of row.tiles) tile.clear();
      this.#spare.push(row);
    }
  }

  #forget(id: string): void {
    const picture = this.#frames.get(id);
    this.#frames.delete(id);
    if (!picture) return;
    this.#pictures.drop(picture);
    picture.close();
  }

  #settleFocus(): void {
    const { frames } = this.#session.store.get();
    const index = frames.findIndex(({ id }) => id === this.#wantsFocus);
    const { columns } = this.#layout;
    const tile = index < 0 ? undefined : this.#rows.get(Math.floor(index / columns))?.tiles[index % columns];
    if (tile?.frame === undefined) return;
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
