/** Wooden houses of Varnhaven. A house stands on y = 0, its front towards +z, x from −width/2 to width/2. */
import { plain, pane } from "./materials.ts";
import type { Builder } from "./mesh.ts";
import { hash } from "./random.ts";
import { beam, box, flat, quad } from "./shapes.ts";
import type { Light } from "./sky.ts";
import type { Material } from "./surface.ts";
import { place, type Placement, type Vec } from "./vector.ts";

export interface HouseSpec {
  readonly width: number;
  readonly depth: number;
  readonly eaves: number;
  /** Height of the ridge above the eaves. */
  readonly rise: number;
  /** True when the gable faces the front. */
  readonly gable: boolean;
  readonly wall: Material;
  readonly roof: Material;
  readonly trim?: Light;
  readonly storeys?: number;
  /** Windows to a storey on the front. */
  readonly bays?: number;
  /** Lamplight behind panes; undefined is dark. Asked by window number. */
  readonly lit?: (window: number) => Light | undefined;
  readonly door?: Light;
  readonly chimney?: boolean;
  /** 0 far off: walls, roof and dark window marks; 1 near: casings, bars, gutters. */
  readonly detail?: number;
  readonly own?: number;
}

const stone = plain([0.2, 0.19, 0.18]);
const brick = plain([0.24, 0.1, 0.07]);
const iron = plain([0.06, 0.06, 0.062], 0.04);
const darkPane = pane();
const curtained = pane(undefined, 0.95, 1.4);

export function house(b: Builder, at: Placement, h: HouseSpec): void {
  b.at(at, () => {
    const w = h.width / 2;
    const d = h.depth;
    const e = h.eaves;
    const own = h.own ?? hash(Math.round(at[3] * 31 + at[11] * 17));
    b.use(stone, own);
    box(b, [-w - 0.04, -0.6, -d - 0.04], [w + 0.04, 0.45, 0.04]);
    b.use(h.wall, own);
    quad(b, [-w, 0.45, 0], [w, 0.45, 0], [w, e, 0], [-w, e, 0], own * 50, 0);
    quad(b, [w, 0.45, 0], [w, 0.45, -d], [w, e, -d], [w, e, 0], own * 30, 0);
    quad(b, [-w, 0.45, -d], [-w, 0.45, 0], [-w, e, 0], [-w, e, -d], own * 20, 0);
    quad(b, [w, 0.45, -d], [-w, 0.45, -d], [-w, e, -d], [w, e, -d]);
    const over = 0.35;
    if (h.gable) {
      flat(b, [-w, e, 0], [w, e, 0], [0, e + h.rise, 0]);
      flat(b, [w, e, -d], [-w, e, -d], [0, e + h.rise, -d]);
      const drop = (over * h.rise) / w;
      b.use(h.roof, own);
      slab(
        b,
        [w + over, e - drop, over],
        [w + over, e - drop, -d - over],
        [0, e + h.rise, -d - over],
        [0, e + h.rise, over],
        0.12,
      );
      slab(
        b,
        [-w - over, e - drop, -d - over],
        [-w - over, e - drop, over],
        [0, e + h.rise, over],
        [0, e + h.rise, -d - over],
        0.12,
      );
    } else {
      flat(b, [w, e, 0], [w, e, -d], [w, e + h.rise, -d / 2]);
      flat(b, [-w, e, -d], [-w, e, 0], [-w, e + h.rise, -d / 2]);
      const drop = (over * h.rise) / (d / 2);
      b.use(h.roof, own);
      slab(
        b,
        [-w - over, e - drop, over],
        [w + over, e - drop, over],
        [w + over, e + h.rise, -d / 2],
        [-w - over, e + h.rise, -d / 2],
        0.12,
      );
      slab(
        b,
        [w + over, e - drop, -d - over],
        [-w - over, e - drop, -d - over],
        [-w - over, e + h.rise, -d / 2],
        [w + over, e + h.rise, -d / 2],
        0.12,
      );
    }
    if (h.chimney !== false) {
      b.use(brick, own);
      const cx = h.gable ? w * 0.25 : w * (own - 0.5);
      const cz = h.gable ? -d * 0.45 : -d * 0.5;
      box(b, [cx - 0.35, e + h.rise * 0.6, cz - 0.35], [cx + 0.35, e + h.rise + 0.8, cz + 0.35]);
      box(b, [cx - 0.42, e + h.rise + 0.8, cz - 0.42], [cx + 0.42, e + h.rise + 0.95, cz + 0.42]);
    }
    front(b, h, own);
    if ((h.detail ?? 0) > 0) near(b, h, own);
  });
}

/** A roof plane with thickness. */
function slab(b: Builder, p0: Vec, p1: Vec, p2: Vec, p3: Vec, thick: number): void {
  const lower = (p: Vec): Vec => [p[0], p[1] - thick, p[2]];
  quad(b, p0, p1, p2, p3);
  quad(b, lower(p0), lower(p1), p1, p0);
  quad(b, lower(p1), lower(p2), p2, p1);
  quad(b, lower(p3), lower(p0), p0, p3);
  quad(b, lower(p3), lower(p2), lower(p1), lower(p0));
}

function front(b: Builder, h: HouseSpec, own: number): void {
  const storeys = h.storeys ?? 2;
  const bays = h.bays ?? 3;
  const tall = (h.eaves - 0.45) / storeys;
  const trim = plain(h.trim ?? [0.72, 0.7, 0.64], 0.03);
  let n = 0;
  const doorBay = Math.floor(own * bays);
  for (let s = 0; s < storeys; s++)
    for (let i = 0; i < bays; i++, n++) {
      const x = ((i + 0.5) / bays - 0.5) * (h.width - 0.6);
      const y = 0.45 + s * tall + tall * 0.32;
      if (s === 0 && i === doorBay && h.door) door(b, x, h.door, trim, own, h.detail ?? 0);
      else window(b, x, y, 0.95, Math.min(1.45, tall * 0.55), h, trim, n, own);
    }
  if (h.gable && h.rise > 2) window(b, 0, h.eaves + h.rise * 0.18, 0.8, 1.05, h, trim, n, own);
}

/** A casing that stands proud of the wall, the sash set back in it, bars between the panes. */
export function window(
  b: Builder,
  x: number,
  y: number,
  w: number,
  t: number,
  h: HouseSpec,
  trim: Material,
  n: number,
  own: number,
): void {
  const lamp = h.lit?.(n);
  const detail = h.detail ?? 0;
  const glass = lamp ? pane(lamp, detail > 0 ? w : 0, t) : detail > 0 ? curtained : darkPane;
  const x0 = x - w / 2;
  const x1 = x + w / 2;
  const y1 = y + t;
  b.use(glass, hash(n + Math.floor(own * 1000)));
  const z = 0.02;
  quad(b, [x0, y, z], [x1, y, z], [x1, y1, z], [x0, y1, z]);
  b.use(trim, own);
  const c = 0.1;
  const p = detail > 0 ? 0.07 : 0.04;
  box(b, [x0 - c, y - c, 0], [x0, y1 + c, p]);
  box(b, [x1, y - c, 0], [x1 + c, y1 + c, p]);
  box(b, [x0, y1, 0], [x1, y1 + c, p]);
  box(b, [x0 - c * 1.3, y - c, 0], [x1 + c * 1.3, y, p + 0.05]);
  if (detail > 0) {
    box(b, [x0 - c * 1.2, y1 + c, 0], [x1 + c * 1.2, y1 + c + 0.05, p + 0.05]);
    box(b, [x - 0.025, y, z], [x + 0.025, y1, z + 0.03]);
    for (const f of [0.34, 0.67]) box(b, [x0, y + t * f - 0.015, z], [x1, y + t * f + 0.015, z + 0.025]);
  }
}

function door(b: Builder, x: number, c: Light, trim: Material, own: number, detail: number): void {
  b.use(plain(c, 0.04, 0.3), own);
  box(b, [x - 0.48, 0.4, 0], [x + 0.48, 2.45, 0.03]);
  b.use(trim, own);
  box(b, [x - 0.6, 0.4, 0], [x - 0.48, 2.55, 0.08]);
  box(b, [x + 0.48, 0.4, 0], [x + 0.6, 2.55, 0.08]);
  box(b, [x - 0.6, 2.45, 0], [x + 0.6, 2.6, 0.1]);
  b.use(stone, own);
  box(b, [x - 0.75, -0.1, 0], [x + 0.75, 0.2, 0.7]);
  box(b, [x - 0.65, 0.2, 0], [x + 0.65, 0.4, 0.4]);
  if (detail > 0) {
    b.use(plain([c[0] * 0.6, c[1] * 0.6, c[2] * 0.6]), own);
    for (const [y0, y1] of [
      [0.55, 1.3],
      [1.45, 2.3],
    ])
      for (const s of [-1, 1]) box(b, [x + s * 0.23 - 0.15, y0, 0.03], [x + s * 0.23 + 0.15, y1, 0.045]);
  }
}

/** Corner boards, barge boards, gutters and a downpipe. */
function near(b: Builder, h: HouseSpec, own: number): void {
  const w = h.width / 2;
  const e = h.eaves;
  b.use(plain(h.trim ?? [0.72, 0.7, 0.64], 0.03), own);
  for (const s of [-1, 1]) box(b, [s * w - 0.09, 0.45, -0.1], [s * w + 0.09, e, 0.05]);
  if (h.gable) {
    const over = 0.35;
    const drop = (over * h.rise) / w;
    for (const s of [-1, 1])
      beam(b, [s * (w + over), e - drop - 0.06, over + 0.02], [0, e + h.rise - 0.06, over + 0.02], 0.05, 0.24);
  } else {
    b.use(iron, own);
    beam(b, [-w - 0.35, e - 0.3, 0.42], [w + 0.35, e - 0.3, 0.42], 0.12);
    beam(b, [w - 0.15, e - 0.3, 0.42], [w - 0.15, e - 0.6, 0.1], 0.08);
    beam(b, [w - 0.15, e - 0.6, 0.1], [w - 0.15, 0.1, 0.1], 0.08);
  }
}

/** A far-off town climbing a slope: `ground` gives its height. Returns nothing; houses face `turn` degrees. */
export function town(
  b: Builder,
  spots: readonly (readonly [number, number])[],
  ground: (x: number, z: number) => number,
  walls: readonly Light[],
  roofs: readonly Light[],
  turn: number,
  lit?: (n: number) => Light | undefined,
): void {
  const wallOf = walls.map((c) => plain(c));
  const roofOf = roofs.map((c) => plain(c, 0.02));
  spots.forEach(([x, z], i) => {
    const r = hash(i * 3 + 1);
    const q = hash(i * 3 + 2);
    house(b, place([x, ground(x, z), z], turn + (r - 0.5) * 24), {
      width: 6.5 + q * 4,
      depth: 7 + r * 3,
      eaves: 4 + Math.floor(hash(i * 5) * 2.4) * 1.6,
      rise: 2.4 + q * 1.6,
      gable: hash(i * 7) > 0.45,
      wall: wallOf[Math.floor(hash(i * 11) * walls.length)],
      roof: roofOf[Math.floor(hash(i * 13) * roofs.length)],
      storeys: 2,
      bays: 3,
      own: r,
      lit: lit ? (n) => lit(i * 10 + n) : undefined,
    });
  });
}
