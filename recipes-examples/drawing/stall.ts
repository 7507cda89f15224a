/** A market stall. */
import { card, fishBox, type Goods } from "./fish.ts";
import { boards, plain, stripes } from "./materials.ts";
import type { Builder } from "./mesh.ts";
import { noise2 } from "./noise.ts";
import { beam, box, patch } from "./shapes.ts";
import type { Light } from "./sky.ts";
import { after, place, type Placement, tip } from "./vector.ts";

const wood = boards({ colour: [0.3, 0.22, 0.14], width: 0.14, wear: 0.6 });

/**
 * A table of sloping boxes `long` metres wide, four poles and an awning striped in two colours with a scalloped edge;
 * it faces +z.
 */
export function stall(
  b: Builder,
  at: Placement,
  long: number,
  one: Light,
  two: Light,
  goods: readonly Goods[],
  seed: number,
): void {
  const half = long / 2;
  b.at(at, () => {
    b.use(wood, 0.3);
    box(b, [-half, 0.62, -0.42], [half, 0.66, 0.52]);
    for (const x of [-half + 0.1, 0, half - 0.1]) for (const z of [-0.35, 0.42]) beam(b, [x, 0, z], [x, 0.62, z], 0.08);
    box(b, [-half, 0.2, -0.36], [half, 0.23, 0.4]);
    b.use(plain([one[0] * 0.8, one[1] * 0.8, one[2] * 0.8]));
    // A cloth hung before the table's legs.
    patch(b, 60, 3, (s, t) => [-half + long * s, 0.64 - 0.42 * t, 0.535 + 0.02 * noise2(s * 26, t) * (0.3 + t)], {
      flip: true,
    });
    const boxes = Math.floor(long / 0.6);
    for (let i = 0; i < boxes; i++)
      for (let r = 0; r < 2; r++) {
        const c: Light = (i + r + seed) % 3 === 0 ? [0.64, 0.3, 0.06] : [0.08, 0.19, 0.34];
        const p = after(
          place([-half + 0.34 + (i * (long - 0.68)) / (boxes - 1), 0.72 + (1 - r) * 0.16, r ? 0.28 : -0.14], 0),
          tip("x", 17),
        );
        fishBox(b, p, c, goods[(i + r * 3 + seed) % goods.length], seed * 100 + i * 2 + r);
        if ((i + r) % 2) card(b, after(p, place([0.1, 0.06, -0.1], 0)), (i * 0.37 + r * 0.2) % 1);
      }
    b.use(plain([0.5, 0.48, 0.42], 0.03));
    for (const x of [-half - 0.05, half + 0.05]) {
      beam(b, [x, 0, -1.25], [x, 2.95, -1.25], 0.07);
      beam(b, [x, 0, 0.85], [x, 2.35, 0.85], 0.06);
    }
    b.use(stripes(one, two, 0.42, 0.4));
    patch(
      b,
      60,
      14,
      (s, t) => [
        -half - 0.2 + (long + 0.4) * s,
        2.95 - 0.58 * t - 0.09 * Math.sin(Math.PI * t) - 0.03 * Math.abs(Math.sin(s * 9.42)) * Math.sin(Math.PI * t),
        -1.35 + 2.4 * t,
      ],
      { flip: true, uv: (s, t) => [s * (long + 0.4), t * 2.4] },
    );
    patch(
      b,
      88,
      3,
      (s, t) => [
        -half - 0.2 + (long + 0.4) * s,
        2.37 - (0.13 + 0.07 * Math.abs(Math.sin(((s * (long + 0.4)) / 0.42) * Math.PI))) * t,
        1.05 + 0.03 * noise2(s * 14, t * 2) * t,
      ],
      { flip: true, uv: (s, t) => [s * (long + 0.4), t * 0.2] },
    );
  });
}
