import { describe, expect, test } from "vitest";
import { orderMoves } from "../../../../extension/recipe/diff/order.ts";
import fc from "../../../properties.ts";

/** Moves made one after the other, written as simply as can be. */
const made = (before: readonly string[], moves: ReturnType<typeof orderMoves>): string[] =>
  moves.reduce(
    (ids, { id, before: next }) => {
      const others = ids.filter((other) => other !== id);
      return others.toSpliced(next === null ? others.length : others.indexOf(next), 0, id);
    },
    [...before],
  );

describe("the moves between two orders", () => {
  test("are the fewest", () => {
    expect(orderMoves(["1", "2", "3", "4"], ["1", "4", "2", "3"])).toEqual([{ id: "4", before: "2" }]);
    expect(orderMoves(["1", "2", "3", "4"], ["2", "3", "4", "1"])).toEqual([{ id: "1", before: null }]);
    expect(orderMoves(["1", "2", "3"], ["1", "2", "3"])).toEqual([]);
    expect(orderMoves(["1", "2", "3", "4"], ["4", "3", "2", "1"])).toHaveLength(3);
  });

  test("names that one list alone has count for nothing", () => {
    expect(orderMoves(["1", "2", "3"], ["0", "1", "3", "4"])).toEqual([]);
    expect(orderMoves(["1", "2", "3"], ["3", "4", "1"])).toEqual([{ id: "3", before: "1" }]);
  });

  test("made one after the other, they lead from the one to the other", () => {
    const ids = Array.from({ length: 12 }, (_, i) => String(i));
    const order = fc.shuffledSubarray(ids, { minLength: 12 });
    fc.assert(
      fc.property(order, order, (a, b) => {
        expect(made(a, orderMoves(a, b))).toEqual(b);
      }),
    );
  });
});
