/**
 * The vector kernels of xtrans.ts. A row lies in memory as six parts, one for each column of the filter block, so that
 * the neighbours of four sites of one column are four numbers in a row. Numbers are 32-bit floats, sums are made in 64
 * bits.
 */
import { type Code, get, i32, lanes, moduleOf, pairs, repeat, set } from "../../engine/wasm/assembler.ts";
import { PERIOD } from "./xtrans-layout.ts";

/** Sites of a part that go through at a time: each part needs room for so many more. */
export const STEP = 4;

/** Share of the site's own detail that green follows; see bayer.ts. */
const SHARE = 0.8;
/** Keeps blends defined where all is smooth; in squared recorded numbers. */
const SMOOTH = 1;
/** Step of green up to which neighbours count as the same thing: of the site itself. */
const SITE_TOLERANCE = 0.01;

const i32s = (count: number) => Array.from({ length: count }, () => "i32" as const);
const vectors = (count: number) => Array.from({ length: count }, () => "v128" as const);
const from = (first: number, count: number): number[] => Array.from({ length: count }, (_, k) => first + k);
const forward = (local: number, bytes = 4 * STEP): Code => set(local, i32.add(get(local), i32.value(bytes)));
/** Two 32-bit floats as 64-bit ones. */
const two = (address: Code, offset: number): Code => pairs.fromLow(lanes.loadLow(address, offset));
/** The low halves of two vectors as one. */
const joined = (low: Code, high: Code): Code => lanes.pick(low, high, [0, 1, 4, 5]);

/**
 * Green at one column's sites of a row, between the nearest green sites each way. Addresses: the sites, the green ones
 * left, right, above and below; with `again` also the site's colour less green at those four; where green and the
 * difference to it go, the sites' end, and the constants: share of the left neighbour, of the upper one, and one
 * through the sites from left to right, and from above to below.
 * @param again whether differences are known, by which green follows the site's own detail
 */
export function greenModule(again: boolean): Uint8Array {
  const inputs = from(0, again ? 9 : 5);
  const [site, left, right, above, below, leftSpread, rightSpread, aboveSpread, belowSpread] = inputs;
  const [green, difference, end, constants] = from(inputs.length, 4);
  const [own, first, second, along, across, roughAlong, roughAcross, value, firstGreen, firstDifference] = from(
    inputs.length + 4,
    10,
  );
  const { add, sub, mul, divide, absolute, splat } = pairs;
  const constant = (k: number): Code => pairs.loadSplat(get(constants), 8 * k);
  /** What lies between two numbers, the first of which has this share. */
  const between = (a: Code, b: Code, share: number): Code[] => [
    set(first, a),
    set(second, b),
    add(get(second), mul(sub(get(first), get(second)), constant(share))),
  ];
  const direction = (a: number, b: number, at: number, share: number, into: number, rough: number): Code[] => {
    const [start, end_, mean] = between(two(get(a), at), two(get(b), at), share);
    return [start, end_, set(into, mean), set(rough, mul(absolute(sub(get(first), get(second))), constant(share + 2)))];
  };
  const detail = (a: number, b: number, at: number, share: number, into: number, rough: number): Code[] => {
    const [start, end_, mean] = between(two(get(a), at), two(get(b), at), share);
    return [
      start,
      end_,
      set(value, sub(sub(get(own), mean), get(into))),
      set(into, add(get(into), mul(get(value), splat(SHARE)))),
      set(rough, add(get(rough), absolute(get(value)))),
    ];
  };
  const weight = (rough: number): Code => add(mul(get(rough), get(rough)), splat(SMOOTH));
  /** Leaves green of two sites in `value`, `at` bytes on. */
  const twoSites = (at: number): Code[] => [
    set(own, two(get(site), at)),
    ...direction(left, right, at, 0, along, roughAlong),
    ...direction(above, below, at, 1, across, roughAcross),
    ...(again
      ? [
          ...detail(leftSpread, rightSpread, at, 0, along, roughAlong),
          ...detail(aboveSpread, belowSpread, at, 1, across, roughAcross),
        ]
      : []),
    // Each direction counts by how rough the other one is.
    set(first, weight(roughAcross)),
    set(second, weight(roughAlong)),
    set(value, divide(add(mul(get(along), get(first)), mul(get(across), get(second))), add(get(first), get(second)))),
  ];
  return moduleOf(i32s(inputs.length + 4), vectors(10), [
    repeat(
      [
        ...twoSites(0),
        set(firstGreen, pairs.toLow(get(value))),
        set(firstDifference, pairs.toLow(sub(get(own), get(value)))),
        ...twoSites(8),
        lanes.store(get(green), joined(get(firstGreen), pairs.toLow(get(value)))),
        lanes.store(get(difference), joined(get(firstDifference), pairs.toLow(sub(get(own), get(value))))),
        ...[...inputs, green, difference].map((local) => forward(local)),
      ],
      i32.lessThan(get(site), get(end)),
    ),
  ]);
}

/**
 * One colour's difference to green at one column's sites of a row: the mean of its neighbours', those first whose green
 * is like the site's own. Addresses: green at the sites, where the difference goes, the end of that, and a table: the
 * step of green that counts as none (a 64-bit float), then for each neighbour the address of its green; and how many
 * bytes further on its difference lies.
 * @param shares of the neighbours
 */
export function spreadModule(shares: readonly number[]): Uint8Array {
  const [green, target, end, table, further] = [0, 1, 2, 3, 4];
  const neighbours = from(5, shares.length);
  const [own, same, weight, sum, total, low] = from(5 + shares.length, 6);
  const { add, sub, mul, divide, higher, absolute, splat } = pairs;
  /** Leaves the difference at two sites on the stack, `at` bytes on. */
  const twoSites = (at: number): { readonly before: Code[]; readonly mean: Code } => ({
    before: [
      set(own, two(get(green), at)),
      set(same, add(pairs.loadSplat(get(table)), higher(mul(get(own), splat(SITE_TOLERANCE)), splat(0)))),
      ...neighbours.flatMap((neighbour, k) => {
        const apart = absolute(sub(two(get(neighbour), at), get(own)));
        const weighted = mul(get(weight), two(i32.add(get(neighbour), get(further)), at));
        return [
          set(weight, divide(splat(shares[k]), add(apart, get(same)))),
          set(sum, k === 0 ? weighted : add(get(sum), weighted)),
          set(total, k === 0 ? get(weight) : add(get(total), get(weight))),
        ];
      }),
    ],
    mean: pairs.toLow(divide(get(sum), get(total))),
  });
  const [one, other] = [twoSites(0), twoSites(8)];
  const locals = [...neighbours.map(() => "i32" as const), ...vectors(6)];
  return moduleOf(i32s(5), locals, [
    ...neighbours.map((neighbour, k) => set(neighbour, i32.load(get(table), 8 + 4 * k))),
    repeat(
      [
        ...one.before,
        set(low, one.mean),
        ...other.before,
        lanes.store(get(target), joined(get(low), other.mean)),
        ...[green, target, ...neighbours].map((local) => forward(local)),
      ],
      i32.lessThan(get(target), get(end)),
    ),
  ]);
}

/**
 * The finished numbers of one column's sites of a row, at their places of the interleaved row: undoes the balance and
 * puts the numbers on the scan's levels. Addresses: green, red less green, blue less green, the target of the first
 * site, the end of green, and the constants: the factors of red, green and blue, and the offset.
 */
export function levelsModule(): Uint8Array {
  const [green, red, blue, target, end, constants] = [0, 1, 2, 3, 4, 5];
  const [g, low, reds, greens, blues] = [6, 7, 8, 9, 10];
  const { add, mul, loadSplat } = pairs;
  const level = (number: Code, colour: number): Code =>
    pairs.toLowI32(add(mul(number, loadSplat(get(constants), 8 * colour)), loadSplat(get(constants), 24)));
  const twoSites = (at: number): readonly (readonly [into: number, value: Code])[] => [
    [reds, level(add(get(g), two(get(red), at)), 0)],
    [greens, level(get(g), 1)],
    [blues, level(add(get(g), two(get(blue), at)), 2)],
  ];
  const pixel = 2 * 3;
  return moduleOf(i32s(6), vectors(5), [
    repeat(
      [
        set(g, two(get(green), 0)),
        ...twoSites(0).map(([into, value]) => set(into, value)),
        set(g, two(get(green), 8)),
        ...twoSites(8).flatMap(([into, value]) => [set(low, value), set(into, joined(get(into), get(low)))]),
        set(low, lanes.narrow(get(reds), get(greens))),
        // Red and green of each site side by side.
        set(low, lanes.pick16(get(low), get(low), [0, 4, 1, 5, 2, 6, 3, 7])),
        set(blues, lanes.narrow(get(blues), get(blues))),
        ...from(0, STEP).flatMap((k) => [
          lanes.storeLane(get(target), get(low), k, PERIOD * pixel * k),
          lanes.storeLane16(get(target), get(blues), k, PERIOD * pixel * k + 4),
        ]),
        ...[green, red, blue].map((local) => forward(local)),
        forward(target, PERIOD * pixel * STEP),
      ],
      i32.lessThan(get(green), get(end)),
    ),
  ]);
}
