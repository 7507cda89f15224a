/**
 * The vector kernels of bayer.ts. A row lies in memory as two half rows, its even and its odd columns, so that the
 * neighbours of four sites of one colour are four numbers in a row. Numbers are 32-bit floats, sums are made in 64 bits.
 */
import { type Code, get, i32, lanes, moduleOf, pairs, repeat, set } from "../../engine/wasm/assembler.ts";

/** Sites of a half row that go through at a time: each half row needs room for so many more. */
export const STEP = 4;

/** Share of the site's own curvature that green follows. A noiseless picture would ask for 0.25; grain for less. */
const CURVATURE = 0.2;
/** Keeps the blend defined where both directions are perfectly smooth; in squared recorded numbers. */
const SMOOTH = 1;

const i32s = (count: number) => Array.from({ length: count }, () => "i32" as const);
const vectors = (count: number) => Array.from({ length: count }, () => "v128" as const);
const forward = (local: number, bytes: number): Code => set(local, i32.add(get(local), i32.value(bytes)));
/** Two 32-bit floats as 64-bit ones. */
const two = (address: Code, offset = 0): Code => pairs.fromLow(lanes.loadLow(address, offset));
/** The low halves of two vectors as one. */
const joined = (low: Code, high: Code): Code => lanes.pick(low, high, [0, 1, 4, 5]);
const highHalf = (vector: Code): Code => lanes.pick(vector, vector, [2, 3, 2, 3]);

/**
 * Parts a row of 16-bit samples into its balanced halves: (sample − black) × factor. Addresses: samples, even half, odd
 * half, the even half's end, and the constants: black and factor of the even columns, and of the odd ones.
 */
export function halvesModule(): Uint8Array {
  const [samples, even, odd, end, constants] = [0, 1, 2, 3, 4];
  const [both, whole] = [5, 6];
  const balanced = (integers: Code, at: number): Code => {
    const number = pairs.sub(pairs.fromLowI32(integers), pairs.loadSplat(get(constants), at));
    return pairs.toLow(pairs.mul(number, pairs.loadSplat(get(constants), at + 8)));
  };
  const half = (target: number, integers: Code, at: number): Code => [
    ...set(whole, integers),
    ...lanes.store(get(target), joined(balanced(get(whole), at), balanced(highHalf(get(whole)), at))),
  ];
  return moduleOf(i32s(5), vectors(2), [
    repeat(
      [
        set(both, lanes.load(get(samples))),
        half(even, lanes.and(get(both), lanes.splatI32(0xffff)), 0),
        half(odd, lanes.shiftRight(get(both), 16), 16),
        forward(samples, 4 * STEP),
        forward(even, 4 * STEP),
        forward(odd, 4 * STEP),
      ],
      i32.lessThan(get(even), get(end)),
    ),
  ]);
}

/**
 * Green at the red or blue sites of a row. Addresses: the sites' half row, their left neighbours (the right ones follow
 * each), those above, below, two above and two below, where green and the difference to it go, the half row's end.
 */
export function greenModule(): Uint8Array {
  const [site, left, above, below, above2, below2, green, difference, end] = [0, 1, 2, 3, 4, 5, 6, 7, 8];
  const [centre, l, r, a, b, along, across, roughAlong, roughAcross, value, first, firstDifference] = Array.from(
    { length: 12 },
    (_, k) => 9 + k,
  );
  const { add, sub, mul, divide, lower, higher, absolute, splat } = pairs;
  const half = splat(0.5);
  /** Twice the site less its neighbours of the same colour. */
  const curvature = (before: Code, behind: Code): Code => sub(sub(mul(splat(2), get(centre)), before), behind);
  /** Green never leaves the range of its two neighbours: overshoot would double the grain. */
  const guess = (curved: number, p: number, q: number): Code =>
    higher(
      lower(get(p), get(q)),
      lower(higher(get(p), get(q)), add(mul(add(get(p), get(q)), half), mul(get(curved), splat(CURVATURE)))),
    );
  const rough = (curved: number, p: number, q: number): Code =>
    add(absolute(sub(get(p), get(q))), absolute(get(curved)));
  const weight = (roughness: number): Code => add(mul(get(roughness), get(roughness)), splat(SMOOTH));
  /** Leaves green of two sites in `value`, `at` bytes on. */
  const twoSites = (at: number): Code[] => [
    set(centre, two(get(site), at)),
    set(l, two(get(left), at)),
    set(r, two(get(left), at + 4)),
    set(a, two(get(above), at)),
    set(b, two(get(below), at)),
    set(along, curvature(two(i32.add(get(site), i32.value(at - 4))), two(get(site), at + 4))),
    set(across, curvature(two(get(above2), at), two(get(below2), at))),
    set(roughAlong, rough(along, l, r)),
    set(roughAcross, rough(across, a, b)),
    set(along, guess(along, l, r)),
    set(across, guess(across, a, b)),
    // Each direction counts by how rough the other one is.
    set(roughAlong, weight(roughAlong)),
    set(roughAcross, weight(roughAcross)),
    set(
      value,
      divide(
        add(mul(get(along), get(roughAcross)), mul(get(across), get(roughAlong))),
        add(get(roughAcross), get(roughAlong)),
      ),
    ),
  ];
  return moduleOf(i32s(9), vectors(12), [
    repeat(
      [
        ...twoSites(0),
        set(first, pairs.toLow(get(value))),
        set(firstDifference, pairs.toLow(sub(get(centre), get(value)))),
        ...twoSites(8),
        lanes.store(get(green), joined(get(first), pairs.toLow(get(value)))),
        lanes.store(get(difference), joined(get(firstDifference), pairs.toLow(sub(get(centre), get(value))))),
        ...[site, left, above, below, above2, below2, green, difference].map((local) => forward(local, 4 * STEP)),
      ],
      i32.lessThan(get(site), get(end)),
    ),
  ]);
}

/**
 * A finished row, interleaved: undoes the balance and puts the numbers on the scan's levels. Addresses: green and
 * difference at the row's own red or blue sites, the recorded green sites, the differences at the sites to the left of
 * the green ones, those left of the own sites in the rows above and below (the right ones follow each), those above and
 * below the green sites, the target and its end, and the constants: the factors of the row's own colour, of the other
 * one, of green, and the offset.
 * @param column on which the row has its own colour: even (0) or odd (1)
 * @param colour the row's own: red (0) or blue (2)
 */
export function rowModule(column: 0 | 1, colour: 0 | 2): Uint8Array {
  const [green, own, site, beside, aboveLeft, belowLeft, above, below, target, end, constants] = Array.from(
    { length: 11 },
    (_, k) => k,
  );
  const [g, low] = [11, 12];
  /** Of the own sites and of the green ones: red, green, blue, four integers each. */
  const [owns, greens] = [
    [13, 14, 15],
    [16, 17, 18],
  ];
  const { add, mul, splat, loadSplat } = pairs;
  const [toOwn, toOther, toGreen, offset] = [0, 8, 16, 24].map((at) => loadSplat(get(constants), at));
  const level = (number: Code, factor: Code): Code => pairs.toLowI32(add(mul(number, factor), offset));
  const onGreen = (difference: Code): Code => add(get(g), difference);
  const other = 2 - colour;

  /** The three colours of two sites, `at` bytes on, to `into`: the first two of its lanes, or its last. */
  const colours = (at: number, into: readonly number[], values: readonly (readonly [number, Code])[]): Code[] =>
    values.flatMap(([c, value]) =>
      at === 0 ? [set(into[c], value)] : [set(low, value), set(into[c], joined(get(into[c]), get(low)))],
    );
  const twoOfEach = (at: number): Code[] => {
    const diagonal = add(
      add(add(two(get(aboveLeft), at), two(get(aboveLeft), at + 4)), two(get(belowLeft), at)),
      two(get(belowLeft), at + 4),
    );
    const along = add(two(get(beside), at), two(get(beside), at + 4));
    const across = add(two(get(above), at), two(get(below), at));
    return [
      set(g, two(get(green), at)),
      ...colours(at, owns, [
        [colour, level(onGreen(two(get(own), at)), toOwn)],
        [1, level(get(g), toGreen)],
        [other, level(onGreen(mul(diagonal, splat(0.25))), toOther)],
      ]),
      set(g, two(get(site), at)),
      ...colours(at, greens, [
        [colour, level(onGreen(mul(along, splat(0.5))), toOwn)],
        [1, level(get(g), toGreen)],
        [other, level(onGreen(mul(across, splat(0.5))), toOther)],
      ]),
    ];
  };
  const [even, odd] = column === 0 ? [owns, greens] : [greens, owns];
  /** Sixteen-bit numbers of a colour: those of the even columns, then those of the odd ones. */
  const narrowed = (c: number): Code => lanes.narrow(get(even[c]), get(odd[c]));
  const placeOf = (pixel: number): number => (pixel % 2) * STEP + (pixel >> 1);
  /** The numbers from `first` on of the interleaved eight pixels. */
  const eight = (first: number): Code => {
    const wanted = Array.from(
      { length: 8 },
      (_, k) => [(first + k) % 3, placeOf(Math.floor((first + k) / 3))] as const,
    );
    const redAndGreen = wanted.map(([c, place]) => (c === 2 ? 0 : 8 * c + place));
    const withBlue = wanted.map(([c, place], k) => (c === 2 ? 8 + place : k));
    return lanes.pick16(lanes.pick16(get(owns[0]), get(owns[1]), redAndGreen), get(owns[2]), withBlue);
  };
  return moduleOf(i32s(11), vectors(8), [
    repeat(
      [
        ...twoOfEach(0),
        ...twoOfEach(8),
        ...[0, 1, 2].map((c) => set(owns[c], narrowed(c))),
        ...[0, 1, 2].map((k) => lanes.store(get(target), eight(8 * k), 16 * k)),
        ...[green, own, site, beside, aboveLeft, belowLeft, above, below].map((local) => forward(local, 4 * STEP)),
        forward(target, 48),
      ],
      i32.lessThan(get(target), get(end)),
    ),
  ]);
}
