import { expect, it } from "vitest";
import { healForNow } from "../../../../extension/engine/image/heal-undo.ts";
import { heal } from "../../../../extension/engine/image/heal.ts";
import type { Spot } from "../../../../extension/engine/image/spot.ts";
import type { LinearScan } from "../../../../extension/engine/types.ts";
import { random } from "../simulated.ts";

it("puts every pixel back, of spots at the sides, lines and spots over one another, too", () => {
  const { uniform } = random(4);
  const [width, height] = [160, 120];
  const data = Uint16Array.from({ length: width * height * 3 }, () => 20_000 + Math.floor(uniform() * 9000));
  const scan: LinearScan = { width, height, channels: 3, data, black: 0, scale: 1 / 65_535 };
  const own = data.slice();
  const first: Spot[] = [
    [0.3, 0.3, 0.02],
    [0.31, 0.31, 0.03],
    [0.001, 0.4, 0.02],
    [1.02, 0.7, 0.03],
    {
      line: [
        [0.5, 0.1],
        [0.7, 0.6],
      ],
      width: 0.01,
    },
  ];
  const restore = healForNow(scan, first);
  expect(data).not.toEqual(own);
  restore();
  expect(data).toEqual(own);
  const second: Spot[] = [[0.6, 0.4, 0.02]];
  healForNow(scan, second);
  const alone = { ...scan, data: own.slice() };
  heal(alone, second);
  expect(data).toEqual(alone.data);
});
