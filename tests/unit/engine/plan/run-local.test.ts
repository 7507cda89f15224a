import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { evaluator } from "../../../../extension/engine/film/reference-pixel.ts";
import { place, toScan, toShown } from "../../../../extension/engine/image/geometry.ts";
import { adjustmentsIn, localGrid, type PicturePlace } from "../../../../extension/engine/local/grid.ts";
import { compilePlan } from "../../../../extension/engine/plan/compile.ts";
import { rowMaker } from "../../../../extension/engine/plan/row-maker.ts";
import { readTransmittance } from "../../../../extension/engine/flat-field/transmittance.ts";
import type { FrameLook, LocalArea, Rgb } from "../../../../extension/engine/types.ts";
import { croppedFrame } from "../../../../webview/state/frame-transform.ts";
import { anyAreas } from "../../../browser/looks.ts";
import { looks, plainLook } from "../looks.ts";
import { random, scanOf, unevenLight } from "../simulated.ts";

const { uniform } = random(5);
const scan = scanOf(90, 60, (x, y, c) => unevenLight(x, y, c) * 10 ** (-0.2 - 1.5 * uniform()), { photons: 20_000 });
const framing = fc.record({
  area: fc.record({
    left: fc.constantFrom(0, 0.05),
    top: fc.constantFrom(0, 0.1),
    width: fc.constantFrom(0.95, 0.7),
    height: fc.constantFrom(0.9, 0.6),
    tilt: fc.constantFrom(0, -3, 2.5),
  }),
  turn: fc.constantFrom(0 as const, 90 as const, 180 as const, 270 as const),
  mirror: fc.boolean(),
});

const rowsOf = (look: FrameLook, at: PicturePlace, y: number): Uint16Array => {
  const [row] = rowMaker(scan, { ratio: 1 }, [compilePlan(look, "srgb", undefined, at)]).row(y, 0, scan.width);
  return row.slice();
};
const burn = (exposure: number, more: Partial<LocalArea> = {}): LocalArea => ({
  shape: { kind: "line", from: [0.5, 0.2], to: [0.5, 0.6] },
  exposure,
  filtration: { cyan: 0, magenta: 0, yellow: 0 },
  contrast: 1,
  ...more,
});

describe("a place of the picture as shown", () => {
  it("is the one that the panel draws, whatever crop, tilt, turn and mirroring", () => {
    fc.assert(
      fc.property(framing, fc.integer({ min: 0, max: 90 }), fc.integer({ min: 0, max: 60 }), (frame, x, y) => {
        const map = toShown(place({ width: 90, height: 60 }, frame));
        const { width, height, toFinished: m } = croppedFrame(90, 60, frame);
        expect(map.a * x + map.c * y + map.e).toBeCloseTo((m.a * x + m.c * y + m.e) / width, 9);
        expect(map.b * x + map.d * y + map.f).toBeCloseTo((m.b * x + m.d * y + m.f) / height, 9);
      }),
    );
  });
});

describe("local exposure", () => {
  it("follows the readable definition within 1/1000 of full scale, for random looks, areas and framings", () => {
    fc.assert(
      fc.property(looks, anyAreas, framing, fc.integer({ min: 0, max: 59 }), (look, local, frame, y) => {
        const at = { scanWidth: scan.width, scanHeight: scan.height, framing: frame };
        const row = rowsOf({ ...look, local }, at, y);
        const { channels } = compilePlan(look, "srgb");
        const read = evaluator(look, "srgb");
        const t = new Float32Array(scan.width * 3);
        readTransmittance(scan, { ratio: 1 }).row(y, t);
        const adjust = adjustmentsIn(local, at)!;
        const p = place({ width: scan.width, height: scan.height }, frame);
        const map = toShown(p);
        for (let x = 0; x < scan.width; x += 3) {
          const [u, v] = [(x + 0.5) / scan.width, (y + 0.5) / scan.height];
          const [sx, sy] = [
            map.a * (x + 0.5) + map.c * (y + 0.5) + map.e,
            map.b * (x + 0.5) + map.d * (y + 0.5) + map.f,
          ];
          // Beyond the picture nothing is drawn, and the grid's edge counts.
          if (sx < 0 || sx > 1 || sy < 0 || sy > 1) continue;
          const local = adjust([u, v]);
          const { encoded } = read([...t.subarray(3 * x, 3 * x + 3)] as unknown as Rgb, local);
          for (let c = 0; c < channels; c++) {
            const made = row[channels * x + c] / 65535;
            // Between the grid's nodes a narrow feather is cut short: see the next test for how much.
            const slack = 1e-3 + slackOf(local, adjust, [u, v], read, t, x, c);
            expect(Math.abs(made - encoded[c])).toBeLessThan(slack);
          }
        }
      }),
      { numRuns: 25 },
    );
  });

  it("leaves every pixel outside of its areas as it was, to the bit", () => {
    const at = {
      scanWidth: 90,
      scanHeight: 60,
      framing: { area: { left: 0, top: 0, width: 1, height: 1, tilt: 0 }, turn: 0 as const, mirror: false },
    };
    for (const film of ["colour-negative", "black-and-white-negative", "slide"] as const) {
      const look = { ...plainLook, film };
      const burned = { ...look, local: [burn(-1)] };
      for (const y of [37, 45, 59]) expect(rowsOf(burned, at, y)).toEqual(rowsOf(look, at, y));
      expect(rowsOf(burned, at, 5)).not.toEqual(rowsOf(look, at, 5));
    }
  });

  it("is the frame's own exposure, filtration and contrast where an area counts whole", () => {
    const at = {
      scanWidth: 90,
      scanHeight: 60,
      framing: { area: { left: 0, top: 0, width: 1, height: 1, tilt: 0 }, turn: 0 as const, mirror: false },
    };
    // Exposures ten stops over mid-grey are held at the chain's limit before an area's contrast, not behind it.
    const near = (a: Uint16Array, b: Uint16Array) => a.forEach((v, i) => expect(Math.abs(v - b[i])).toBeLessThan(64));
    near(rowsOf({ ...plainLook, local: [burn(-0.7)] }, at, 3), rowsOf({ ...plainLook, exposure: -0.7 }, at, 3));
    const filtration = { cyan: 0, magenta: 6, yellow: -9 };
    near(
      rowsOf({ ...plainLook, local: [burn(0, { filtration })] }, at, 3),
      rowsOf({ ...plainLook, filtration }, at, 3),
    );
    const contrast = { ...plainLook.tone, contrast: plainLook.tone.contrast * 1.3 };
    near(
      rowsOf({ ...plainLook, local: [burn(0, { contrast: 1.3 })] }, at, 3),
      rowsOf({ ...plainLook, tone: contrast }, at, 3),
    );
  });

  it("is laid out once for a list of areas, whatever else is moved", () => {
    const local = [burn(-1)];
    const at = {
      scanWidth: 90,
      scanHeight: 60,
      framing: { area: { left: 0, top: 0, width: 1, height: 1, tilt: 0 }, turn: 0 as const, mirror: false },
    };
    expect(localGrid(local, at)).toBe(localGrid(local, { ...at }));
    expect(localGrid(local, { ...at, scanWidth: 91 })).not.toBe(localGrid(local, at));
    expect(localGrid([], at)).toBeUndefined();
    expect(compilePlan({ ...plainLook, local }, "srgb").local).toBeUndefined();
    expect(toScan(place({ width: 90, height: 60 }, at.framing), 0, 0)).toEqual([0, 0]);
  });
});

/** How far the print moves within a node of the grid: what straight lines between nodes may be off by. */
function slackOf(
  local: { exposure: number; contrast: number; density: Rgb },
  adjust: (at: readonly [number, number]) => { exposure: number; contrast: number; density: Rgb },
  [u, v]: readonly [number, number],
  read: ReturnType<typeof evaluator>,
  t: Float32Array,
  x: number,
  c: number,
): number {
  const pixel = [...t.subarray(3 * x, 3 * x + 3)] as unknown as Rgb;
  const own = read(pixel, local).encoded[c];
  const step = 1 / 570;
  return Math.max(
    ...[
      [u + step, v],
      [u - step, v],
      [u, v + step],
      [u, v - step],
    ].map((place) => Math.abs(read(pixel, adjust([place[0], place[1]])).encoded[c] - own)),
  );
}
