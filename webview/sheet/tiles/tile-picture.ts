/** A frame's picture in the grid: it is kept with the frame, and drawn in the tile that the frame has at the time. */
import type { TileElement } from "./tile-element.ts";
import type { TileTarget } from "./tile-pictures.ts";

export class TilePicture implements TileTarget {
  readonly #frame: string;
  #tile: TileElement | undefined;
  #picture: ImageBitmap | undefined;
  #reason: string | undefined;

  constructor(frame: string) {
    this.#frame = frame;
  }

  /** Shows the frame in this tile from now on. */
  attach(tile: TileElement): void {
    if (this.#tile === tile && tile.drawn === this.#picture) return;
    this.#tile = tile;
    if (this.#picture) tile.show(this.#picture);
    else if (this.#reason !== undefined) tile.fail(this.#reason);
  }

  show(picture: ImageBitmap): void {
    this.#picture?.close();
    this.#picture = picture;
    this.#reason = undefined;
    this.#shownIn()?.show(picture);
  }

  fail(reason: string): void {
    this.#reason = reason;
    this.#shownIn()?.fail(reason);
  }

  close(): void {
    this.#picture?.close();
    this.#picture = undefined;
    this.#tile = undefined;
  }

  /** The tile, unless another frame has it by now. */
  #shownIn(): TileElement | undefined {
    return this.#tile?.frame === this.#frame ? this.#tile : undefined;
  }
}
