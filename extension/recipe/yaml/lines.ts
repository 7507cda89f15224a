/** Offsets of a text as lines and columns. */
import type { Position } from "../path.ts";

/** Turns offsets of a text into lines and columns, both counted from 1, and back. */
export class Lines {
  readonly #starts: number[] = [0];

  constructor(text: string) {
    for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) this.#starts.push(at + 1);
  }

  positionOf(offset: number): Position {
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.#starts[middle]! <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: offset - this.#starts[low]! + 1 };
  }

  /** Offset of a line's first character; lines outside the text give its start or its last line's start. */
  startOf(line: number): number {
    return this.#starts[Math.min(Math.max(line, 1), this.#starts.length) - 1]!;
  }

  get count(): number {
    return this.#starts.length;
  }
}
