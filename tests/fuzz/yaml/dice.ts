/** Random numbers that come again with their seed (mulberry32). */
export class Dice {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** 0 … 1, without 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(this.#state ^ (this.#state >>> 15), 1 | this.#state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  /** A whole number 0 … n − 1. */
  below(n: number): number {
    return Math.floor(this.next() * n);
  }

  chance(probability: number): boolean {
    return this.next() < probability;
  }

  pick<T>(list: readonly T[]): T {
    return list[this.below(list.length)]!;
  }

  /** `least` … `most` results of `make`. */
  list<T>(min: number, max: number, make: () => T): T[] {
    return Array.from({ length: min + this.below(max - min + 1) }, make);
  }
}
