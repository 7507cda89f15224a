import fc from "../../../properties.ts";
import { describe, expect, it } from "vitest";
import { type Framing, place, toScan, type Turn } from "../../../../extension/engine/image/geometry.ts";
import { placePicture, type RowSource } from "../../../../extension/engine/image/resample.ts";
import type { Area, Raster } from "../../../../extension/engine/types.ts";

const WHOLE: Area = { left: 0, top: 0, width: 1, height: 1, tilt: 0 };

function draw(
  width: number,
  height: number,
  channels: 1 | 3,
  value: (x: number, y: number, c: number) => number,
): Raster<Uint16Array> {
  const data = new Uint16Array(width * height * channels);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < channels; c++)
        data[i++] = Math.min(65535, Math.max(0, Math.round(value(x + 0.5, y + 0.5, c))));
  return { width, height, channels, data };
}

const rowsOf =
  (r: Raster<Uint16Array>): RowSource =>
  (y, out, from, to) =>
    out.set(r.data.subarray((y * r.width + from) * r.channels, (y * r.width + to) * r.channels));

function picture(scan: Raster<Uint16Array>, framing: Partial<Framing>, long?: number): Raster<Uint16Array> {
  const p = place(scan, { area: WHOLE, turn: 0, mirror: false, ...framing }, long);
  return placePicture(p, scan.channels, rowsOf(scan));
}

const numbered = (w: number, h: number, channels: 1 | 3 = 3): Raster<Uint16Array> =>
  draw(w, h, channels, (x, y, c) => Math.floor(y) * 300 + Math.floor(x) * 3 + c);

/** A pattern that is smooth at the pixel: its true value is known at every position. */
const waves = (x: number, y: number, c: number): number =>
  32768 + 12000 * Math.sin(x * 0.21 + c) + 9000 * Math.cos(y * 0.17 - c) + 3000 * Math.sin((x + y) * 0.11);

describe("samples are copied where nothing needs resampling", () => {
  it("gives the whole scan bit for bit", () => {
    const scan = numbered(31, 17);
    expect(picture(scan, {}).data).toEqual(scan.data);
  });

  it("crops on whole pixels bit for bit, in colour and grey", () => {
    for (const channels of [1, 3] as const) {
      const scan = numbered(40, 30, channels);
      const out = picture(scan, { area: { left: 0.1, top: 0.2, width: 0.5, height: 0.4, tilt: 0 } });
      expect([out.width, out.height]).toEqual([20, 12]);
      for (let y = 0; y < 12; y++)
        for (let i = 0; i < 20 * channels; i++)
          expect(out.data[y * 20 * channels + i]).toBe(scan.data[((y + 6) * 40 + 4) * channels + i]);
    }
  });

  it("repeats the scan's edge where a crop reaches beyond it", () => {
    const scan = numbered(20, 20);
    const out = picture(scan, { area: { left: 0.9, top: 0.9, width: 0.2, height: 0.2, tilt: 0 } });
    expect([out.width, out.height]).toEqual([4, 4]);
    expect([...out.data.subarray(9, 12)]).toEqual([...scan.data.subarray((18 * 20 + 19) * 3, (18 * 20 + 20) * 3)]);
    expect([...out.data.subarray(45, 48)]).toEqual([...scan.data.subarray(399 * 3)]);
  });
});

describe("mirror, then turn", () => {
  const scan = numbered(5, 3, 1);
  const at = (r: Raster<Uint16Array>, x: number, y: number): number => r.data[y * r.width + x];

  it("turns clockwise: the left edge becomes the top edge", () => {
    const out = picture(scan, { turn: 90 });
    expect([out.width, out.height]).toEqual([3, 5]);
    expect([at(out, 0, 0), at(out, 2, 0), at(out, 2, 4)]).toEqual([at(scan, 0, 2), at(scan, 0, 0), at(scan, 4, 0)]);
  });

  it("maps every pixel as the definition says, for all eight ways to lie", () => {
    for (const turn of [0, 90, 180, 270] as const)
      for (const mirror of [false, true])
        for (const channels of [1, 3] as const) {
          // More rows than a block of the sideways writer, so that its last, partial block is seen too.
          const source = numbered(37, 71, channels);
          const out = picture(source, { turn, mirror });
          for (let y = 0; y < 71; y++)
            for (let x = 0; x < 37; x++) {
              const mx = mirror ? 36 - x : x;
              const [tx, ty] = turned(mx, y, 37, 71, turn);
              const from = (y * 37 + x) * channels;
              expect(out.data[(ty * out.width + tx) * channels]).toBe(source.data[from]);
            }
        }
  });

  it("comes back after four quarter turns, or two mirrorings", () => {
    const source = numbered(33, 40);
    let out: Raster<Uint16Array> = source;
    for (let k = 0; k < 4; k++) out = picture(out, { turn: 90 });
    expect(out.data).toEqual(source.data);
    expect(picture(picture(source, { mirror: true }), { mirror: true }).data).toEqual(source.data);
  });
});

function turned(x: number, y: number, w: number, h: number, turn: Turn): [number, number] {
  if (turn === 90) return [h - 1 - y, x];
  if (turn === 180) return [w - 1 - x, h - 1 - y];
  return turn === 270 ? [y, w - 1 - x] : [x, y];
}

describe("straightening", () => {
  it.each([-7, -0.4, 0.25, 1.5, 12, 30])("draws a known pattern where it lies, turned by %s°", (tilt) => {
    const scan = draw(320, 260, 3, waves);
    const area = { left: 0.3, top: 0.3, width: 0.4, height: 0.4, tilt };
    const out = picture(scan, { area });
    const p = place(scan, { area, turn: 0, mirror: false });
    let worst = 0;
    for (let v = 0; v < out.height; v++)
      for (let u = 0; u < out.width; u++) {
        const [x, y] = toScan(p, u + 0.5, v + 0.5);
        for (let c = 0; c < 3; c++)
          worst = Math.max(worst, Math.abs(out.data[(v * out.width + u) * 3 + c] - waves(x, y, c)));
      }
    // 1/512 pixel of phase on a slope of 2500 a pixel, and the kernel's own ripple: under 0.2 % of full scale.
    expect(worst).toBeLessThan(130);
  });

  it("lays a tilted edge upright: positive tilt is a picture that lies clockwise", () => {
    const angle = (3 * Math.PI) / 180;
    // The edge of a picture that was turned clockwise by 3° about the middle of the scan.
    const scan = draw(200, 200, 1, (x, y) => {
      const across = Math.cos(angle) * (x - 100) + Math.sin(angle) * (y - 100);
      return 65535 / (1 + Math.exp(-across));
    });
    const area = { left: 0.25, top: 0.25, width: 0.5, height: 0.5, tilt: 3 };
    const out = picture(scan, { area });
    const crossing = (v: number): number => {
      for (let u = 1; u < out.width; u++) {
        const a = out.data[v * out.width + u - 1];
        const b = out.data[v * out.width + u];
        if (a < 32768 && b >= 32768) return u - 1 + (32768 - a) / (b - a);
      }
      return NaN;
    };
    expect(crossing(5)).toBeCloseTo(crossing(94), 1);
    expect(crossing(50)).toBeCloseTo(49.5, 1);
  });

  it("gives colour and grey the same numbers", () => {
    const area = { left: 0.1, top: 0.15, width: 0.8, height: 0.7, tilt: 2.3 };
    for (const long of [undefined, 61]) {
      const grey = picture(
        draw(150, 120, 1, (x, y) => waves(x, y, 0)),
        { area },
        long,
      );
      const colour = picture(
        draw(150, 120, 3, (x, y) => waves(x, y, 0)),
        { area },
        long,
      );
      for (let i = 0; i < grey.data.length; i++)
        expect(Math.abs(colour.data[i * 3 + 1] - grey.data[i])).toBeLessThanOrEqual(24);
    }
  });

  it("repeats the edge beyond the scan, however far the tilted area reaches out", () => {
    const scan = draw(60, 40, 3, () => 12345);
    for (const tilt of [-45, -20, 8, 44]) {
      const out = picture(scan, { area: { ...WHOLE, tilt } });
      expect(new Set(out.data)).toEqual(new Set([12345]));
    }
  });
});

describe("size", () => {
  it("never enlarges and keeps the longest side", () => {
    const scan = numbered(90, 60);
    expect(picture(scan, {}, 4000).width).toBe(90);
    const small = picture(scan, { turn: 90 }, 30);
    expect([small.width, small.height]).toEqual([20, 30]);
  });

  it("leaves an even tone even", () => {
    for (const value of [0, 1, 777, 40000, 65535])
      for (const long of [7, 33, 64, 99]) {
        const scan = draw(100, 80, 3, () => value);
        for (const tilt of [0, 1.1]) {
          const out = picture(scan, { area: { ...WHOLE, tilt } }, long);
          expect(new Set(out.data)).toEqual(new Set([value]));
        }
      }
  });

  it("keeps the energy of a speck: its sum over the area it shrinks into", () => {
    const scan = draw(300, 300, 3, (x, y) => 20000 + 30000 * Math.exp(-((x - 150) ** 2 + (y - 150) ** 2) / 50));
    const out = picture(scan, {}, 75);
    const sum = (r: Raster<Uint16Array>): number => r.data.reduce((a, b) => a + b - 20000, 0);
    expect((sum(out) * 16) / sum(scan)).toBeCloseTo(1, 2);
  });

  it("takes the area in: a pattern too fine for the small picture becomes its mean, not moiré", () => {
    const scan = draw(240, 240, 3, (x, y) => ((Math.floor(x) + Math.floor(y)) % 2 === 0 ? 60000 : 10000));
    const out = picture(scan, {}, 60);
    const inner = out.data.filter((_, i) => {
      const x = Math.floor(i / 3) % 60;
      const y = Math.floor(i / 180);
      return x > 2 && y > 2 && x < 57 && y < 57;
    });
    expect(Math.min(...inner)).toBeGreaterThan(34800);
    expect(Math.max(...inner)).toBeLessThan(35200);
  });

  it("draws a smooth pattern at its place when it shrinks", () => {
    const scan = draw(400, 300, 3, (x, y, c) => waves(x / 4, y / 4, c));
    const out = picture(scan, {}, 150);
    let worst = 0;
    for (let v = 4; v < out.height - 4; v++)
      for (let u = 4; u < out.width - 4; u++) {
        const true_ = waves(((u + 0.5) * 400) / out.width / 4, ((v + 0.5) * 300) / out.height / 4, 1);
        worst = Math.max(worst, Math.abs(out.data[(v * out.width + u) * 3 + 1] - true_));
      }
    expect(worst).toBeLessThan(330);
  });
});

describe("what a source is asked for", () => {
  it("every row once, from top to bottom, within the scan", () => {
    fc.assert(
      fc.property(
        fc.record({
          left: fc.double({ min: 0, max: 0.9, noNaN: true }),
          top: fc.double({ min: 0, max: 0.9, noNaN: true }),
          width: fc.double({ min: 0.05, max: 1, noNaN: true }),
          height: fc.double({ min: 0.05, max: 1, noNaN: true }),
          tilt: fc.constantFrom(0, -45, -3.3, 0.01, 5, 45),
        }),
        fc.constantFrom<Turn>(0, 90, 180, 270),
        fc.option(fc.integer({ min: 1, max: 80 }), { nil: undefined }),
        (area, turn, long) => {
          const scan = draw(64, 48, 3, () => 4242);
          const asked: number[] = [];
          const out = placePicture(place(scan, { area, turn, mirror: true }, long), 3, (y, row, from, to) => {
            expect(from).toBeGreaterThanOrEqual(0);
            expect(to).toBeLessThanOrEqual(64);
            expect(row.length).toBe((to - from) * 3);
            asked.push(y);
            rowsOf(scan)(y, row, from, to);
          });
          expect(asked).toEqual([...new Set(asked)].toSorted((a, b) => a - b));
          expect(asked.every((y) => y >= 0 && y < 48)).toBe(true);
          expect(out.data.every((v) => v === 4242)).toBe(true);
        },
      ),
      { numRuns: 150 },
    );
  });

  it("refuses areas that hold no pixel or no numbers", () => {
    const scan = { width: 100, height: 100 };
    const framing = (area: Partial<Area>): Framing => ({ area: { ...WHOLE, ...area }, turn: 0, mirror: false });
    expect(() => place(scan, framing({ width: 0.001 }))).toThrow("smaller than one pixel");
    expect(() => place(scan, framing({ left: NaN }))).toThrow("not a number");
    expect(() => place({ width: 70_000, height: 10 }, framing({}))).toThrow("longer than");
  });
});
