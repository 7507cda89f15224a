/** The last pictures that were fetched, up to a number of bytes: the one that was used longest ago goes first. */
import type { Source } from "../render/source.ts";

/** Five pictures of two megapixels with their smaller levels take about 80 MB. */
const MAX_BYTES = 160e6;

const bytesOf = ({ levels }: Source): number => levels.reduce((sum, { codes }) => sum + codes.byteLength, 0);

export class PictureCache {
  readonly #pictures = new Map<string, Source>();
  readonly #maxBytes: number;

  constructor(maxBytes = MAX_BYTES) {
    this.#maxBytes = maxBytes;
  }

  has(key: string): boolean {
    return this.#pictures.has(key);
  }

  /** The picture, without counting as a use of it. */
  peek(key: string): Source | undefined {
    return this.#pictures.get(key);
  }

  get(key: string): Source | undefined {
    const found = this.#pictures.get(key);
    if (found) {
      this.#pictures.delete(key);
      this.#pictures.set(key, found);
    }
    return found;
  }

  /** The newest picture stays, however large it is. */
  keep(picture: Source): void {
    this.#pictures.delete(picture.key);
    this.#pictures.set(picture.key, picture);
    let bytes = [...this.#pictures.values()].reduce((sum, one) => sum + bytesOf(one), 0);
    for (const [key, oldest] of this.#pictures) {
      if (bytes <= this.#maxBytes || this.#pictures.size === 1) return;
      this.#pictures.delete(key);
      bytes -= bytesOf(oldest);
    }
  }
}
