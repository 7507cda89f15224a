import { describe, expect, it } from "vitest";
import { findBase } from "../../../../extension/engine/detect/base.ts";
import { largestBox } from "../../../../extension/engine/math/largest-rectangle.ts";
import { findOnScan } from "../../../../extension/engine/detect/index.ts";
import { downsample } from "../../../../extension/engine/detect/downsampled-scan.ts";
import { CAMERA_B, WARM_PANEL } from "../../../witness/camera/cameras.ts";
import { scatterDust } from "../../../witness/faults/dust.ts";
import { FORMAT_135, FORMAT_135_PLAIN, FORMAT_66 } from "../../../witness/film/format.ts";
import { evenScene, paint } from "../../../witness/scenes/scene.ts";
import type { Setup } from "../../../witness/camera/setup.ts";
import { COALFISH_125, LANTERN_64, NORTHLIGHT_400, SKERRY_100 } from "../../../witness/film/stocks.ts";
import { subject, type SubjectName } from "../../../witness/scenes/subjects.ts";
import { variant } from "../../../witness/scenes/varied.ts";
import { lightOf, shoot, SIZE, STAND, type Shot, type Stand } from "./scans.ts";

const OTHER: Stand = { ...STAND, camera: CAMERA_B, light: WARM_PANEL };
const withOpening = (opening: Setup["opening"]): Stand => ({ ...STAND, setup: { ...STAND.setup, opening } });
const OPEN = withOpening(undefined);
const FULL: Stand = { ...STAND, size: SIZE };
const SMALL: Stand = { ...STAND, size: { width: 1000, height: 666 } };

/** A grey card, lighter than anything in a night. */
const CARD = { left: 0.12, top: 0.68, width: 0.12, height: 0.18 };

interface Case extends Shot {
  readonly name: string;
  readonly of: SubjectName;
  readonly ratio?: number;
  /** Sides that are too dark to be seen. */
  readonly dark?: boolean;
}

// Each scan lies elsewhere and otherwise tilted: film drifts and turns in its holder.
const CASES: Case[] = [
  { name: "a portrait", of: "portrait", stand: FULL, placement: { centre: [0.493, 0.502], tilt: -0.4 } },
  { name: "a forest", of: "forest", placement: { tilt: 0.8 } },
  { name: "snow, another camera and light", of: "snow", stand: OTHER, placement: { tilt: -0.15 } },
  { name: "night: black along one side", of: "night", stand: OTHER, placement: { tilt: 0.2 }, dark: true },
  { name: "perforations in view, no holder", of: "street", stand: OPEN, placement: { width: 0.8, tilt: 0.7 } },
  { name: "night with perforations", of: "night", stand: OPEN, placement: { width: 0.8, tilt: -0.7 }, dark: true },
  {
    name: "film without perforations, tilted further",
    of: "meadow",
    stand: OTHER,
    stock: SKERRY_100,
    film: { format: FORMAT_135_PLAIN },
    placement: { width: 0.86, tilt: 1.4, centre: [0.51, 0.5] },
  },
  {
    name: "black-and-white with much dust",
    of: "table",
    stock: COALFISH_125,
    placement: { tilt: 0.3 },
    request: { dust: scatterDust(FORMAT_135, { specks: 60, hairs: 4 }, 3) },
  },
  // A small piece of film in a large field: a holder's mask, or bare film, up to 35 % of the scan beside the picture.
  ...[NORTHLIGHT_400, COALFISH_125].flatMap((stock): Case[] => [
    {
      name: `${stock.name}: film in view for 35 % on one side`,
      of: "street",
      stock,
      film: { margin: [30, 2] },
      stand: withOpening({ left: 0.02, width: 0.96, top: 0.05, height: 0.9 }),
      placement: { width: 0.5, centre: [0.6, 0.5], tilt: 0.4 },
    },
    {
      name: `${stock.name}: film in view for 20 % on two sides`,
      of: "forest",
      stock,
      film: { margin: [14, 6] },
      stand: withOpening({ left: 0.02, width: 0.96, top: 0.05, height: 0.9 }),
      placement: { width: 0.6, tilt: -0.5 },
    },
  ]),
  {
    name: "a square picture",
    of: "portrait",
    ratio: 1,
    film: { format: FORMAT_66 },
    stand: withOpening({ left: 0.15, width: 0.7, top: 0.01, height: 0.98 }),
    placement: { width: 0.61, tilt: 0.2 },
  },
];

describe("found by itself", () => {
  it.each(CASES)("$name: base within 0.005 D, rectangle within 3 px at 1500, tilt within 0.05°", (shot) => {
    const ratio = shot.ratio ?? 1.5;
    const scene = subject(shot.of, ratio === 1 ? 400 : 540, ratio === 1 ? 400 : 360, 3);
    const { scan, light, truth } = shoot(scene, shot);
    const { base, frame } = findOnScan(scan, light, { ratio });
    for (let c = 0; c < 3; c++) expect(Math.abs(base!.density[c] - truth.base![c])).toBeLessThan(0.005);
    const [is, was] = [frame!.area, truth.area!];
    const off = (a: number, b: number, size: number): number => Math.abs(a - b) * size;
    expect(off(is.left, was.left, SIZE.width)).toBeLessThan(3);
    expect(off(is.top, was.top, SIZE.height)).toBeLessThan(3);
    expect(off(is.left + is.width, was.left + was.width, SIZE.width)).toBeLessThan(3);
    expect(off(is.top + is.height, was.top + was.height, SIZE.height)).toBeLessThan(3);
    expect(Math.abs(is.tilt - was.tilt)).toBeLessThan(0.05);
    const unseen = Object.values(frame!.sides).filter((s) => s === "format").length;
    expect(unseen).toBe(shot.dark ? 1 : 0);
    expect(frame!.confidence > 0.9).toBe(!shot.dark);
  });

  it.each([NORTHLIGHT_400, COALFISH_125])("$name: a third of the scan under the holder on every side", (stock) => {
    const { scan, light, truth } = shoot(subject("street", 540, 360, 3), {
      stock,
      stand: withOpening({ left: 0.3, width: 0.4, top: 0.28, height: 0.44 }),
      placement: { width: 0.32, tilt: 0.4 },
    });
    const { base, frame } = findOnScan(scan, light, { ratio: 1.5 });
    expect(frame!.confidence).toBeGreaterThan(0.8);
    expect(Math.abs(frame!.area.left - truth.area!.left) * SIZE.width).toBeLessThan(3);
    expect(Math.abs(frame!.area.width - truth.area!.width) * SIZE.width).toBeLessThan(3);
    expect(Math.abs(frame!.area.tilt - truth.area!.tilt)).toBeLessThan(0.05);
    for (let c = 0; c < 3; c++) expect(Math.abs(base!.density[c] - truth.base![c])).toBeLessThan(0.005);
  });

  it("takes the holder's border where the holder masks the picture, and then finds no base", () => {
    const opening = { left: 0.06, width: 0.88, top: 0.07, height: 0.86 };
    const { scan, light } = shoot(subject("street", 540, 360, 3), {
      stand: withOpening(opening),
      placement: { width: 0.93 },
    });
    const { base, frame } = findOnScan(scan, light, { ratio: 1.5 });
    expect(new Set(Object.values(frame!.sides))).toEqual(new Set(["holder"]));
    expect(Math.abs(frame!.area.left - opening.left) * SIZE.width).toBeLessThan(3);
    expect(Math.abs(frame!.area.top - opening.top) * SIZE.height).toBeLessThan(3);
    expect(Math.abs(frame!.area.width - opening.width) * SIZE.width).toBeLessThan(3);
    expect(base).toBeUndefined();
  });

  it("says that it found nothing where the picture fills the scan", () => {
    const { scan, light } = shoot(subject("street", 540, 360, 3), { stand: OPEN, placement: { width: 1.05 } });
    const { base, frame } = findOnScan(scan, light, { ratio: 1.5 });
    expect(frame).toBeUndefined();
    expect(base).toBeUndefined();
  });

  it("does not take a lit thing before a black ground for the picture", () => {
    const dark = evenScene(540, 360, [0.0008, 0.0008, 0.0008]);
    paint(dark, { left: 0.35, top: 0.2, width: 0.3, height: 0.6 }, [0.3, 0.2, 0.15]);
    const { scan, light } = shoot(dark, { stand: SMALL });
    expect(findOnScan(scan, light, { ratio: 1.5 }).frame).toBeUndefined();
  });

  it.each([404, 405])("does not take lit windows and the lit ground of a night for the picture (%i)", (seed) => {
    const { scan, light, truth } = shoot(variant("nightTown", seed, 450, 300, CARD), {
      stand: { ...STAND, size: { width: 780, height: 520 } },
    });
    const { frame } = findOnScan(scan, light, { ratio: 1.5 });
    expect(Math.abs(frame!.area.left - truth.area!.left) * SIZE.width).toBeLessThan(3);
    expect(Math.abs(frame!.area.top - truth.area!.top) * SIZE.height).toBeLessThan(3);
  });

  describe.each([
    { name: "35 % on one side", margin: [30, 2], placement: { width: 0.5, centre: [0.6, 0.5], tilt: 0.4 } },
    { name: "20 % on two sides", margin: [14, 6], placement: { width: 0.6, tilt: -0.5 } },
  ] as const)("a night with film in view for $name", ({ margin, placement }) => {
    it.each(["night", "nightTown"] as const)("is found where the roll tells how large its pictures are: %s", (of) => {
      const scene = of === "night" ? subject(of, 540, 360, 4) : variant(of, 405, 450, 300);
      const stand = withOpening({ left: 0.02, width: 0.96, top: 0.05, height: 0.9 });
      const { scan, light, truth } = shoot(scene, { film: { margin }, stand, placement });
      const was = truth.area!;
      const alone = findOnScan(scan, light, { ratio: 1.5 }).frame;
      expect(alone?.confidence ?? 0).toBeLessThan(0.6);
      // The roll's film drifts in its holder, and its pictures' sizes are known no better than they were found.
      const size = { width: 1.001 * was.width, height: 0.9995 * was.height };
      const place = { left: was.left + 0.02, top: was.top - 0.015, tilt: was.tilt + 0.3, ...size };
      const { frame, base } = findOnScan(scan, light, { ratio: 1.5, place });
      const is = frame!.area;
      expect(Math.abs(is.left - was.left) * SIZE.width).toBeLessThan(3);
      expect(Math.abs(is.top - was.top) * SIZE.height).toBeLessThan(3);
      expect(Math.abs(is.left + is.width - was.left - was.width) * SIZE.width).toBeLessThan(3);
      expect(Math.abs(is.top + is.height - was.top - was.height) * SIZE.height).toBeLessThan(3);
      expect(Math.abs(is.tilt - was.tilt)).toBeLessThan(0.05);
      expect(Object.values(frame!.sides).filter((side) => side === "roll")).toHaveLength(1);
      for (let c = 0; c < 3; c++) expect(Math.abs(base!.density[c] - truth.base![c])).toBeLessThan(0.005);
    });
  });

  it("places a frame that shows nothing where the roll's others lie", () => {
    const { scan, light, truth } = shoot(evenScene(540, 360, [1e-5, 1e-5, 1e-5]), { stand: SMALL });
    expect(findOnScan(scan, light, { ratio: 1.5 }).frame).toBeUndefined();
    const { frame } = findOnScan(scan, light, { ratio: 1.5, place: truth.area });
    expect(frame).toMatchObject({ area: truth.area, sides: { left: "roll", bottom: "roll" } });
    expect(frame!.confidence).toBeLessThan(0.5);
  });

  it("finds a slide's picture inside its black margin", () => {
    const { scan, light, truth } = shoot(subject("street", 540, 360, 5), {
      stand: SMALL,
      stock: LANTERN_64,
      placement: { tilt: 0.4 },
    });
    const { frame } = findOnScan(scan, light, { ratio: 1.5, base: [0, 0, 0] });
    expect(Math.abs(frame!.area.left - truth.area!.left) * SIZE.width).toBeLessThan(3);
    expect(Math.abs(frame!.area.height - truth.area!.height) * SIZE.height).toBeLessThan(3);
    expect(Math.abs(frame!.area.tilt - truth.area!.tilt)).toBeLessThan(0.05);
  });

  it("takes no more for flare than the sun on the film leaves room for", () => {
    const sunny = subject("street", 540, 360, 3);
    paint(sunny, { left: 0.45, top: 0.1, width: 0.05, height: 0.08 }, [400, 380, 340]);
    const shot = { placement: { tilt: 0.2 } };
    const { scan, light, truth } = shoot(sunny, shot);
    const { flare } = findOnScan(scan, light, { ratio: 1.5 });
    const plain = shoot(subject("street", 540, 360, 3), shot);
    const bySheen = findOnScan(plain.scan, plain.light, { ratio: 1.5 }).flare!;
    // The holder's own sheen passes for flare; blue is the densest on film and shows that it is too much.
    expect(bySheen[2] - plain.truth.flare[2]).toBeGreaterThan(0.0004);
    expect(Math.abs(flare![2] - truth.flare[2])).toBeLessThan(0.0004);
    for (let c = 0; c < 3; c++) expect(flare![c] - truth.flare[c]).toBeLessThan(0.0012);
  });

  it("finds a leader's base, and no picture on it", () => {
    const { scan, light, truth } = shoot("leader");
    const { base, frame } = findOnScan(scan, light, { ratio: 1.5 });
    expect(frame).toBeUndefined();
    expect(base!.share).toBeGreaterThan(0.8);
    for (let c = 0; c < 3; c++) expect(Math.abs(base!.density[c] - truth.base![c])).toBeLessThan(0.005);
  });

  it("finds the rebate without a blank too, beside perforations full of bare light", () => {
    const { scan, truth } = shoot(subject("street", 540, 360, 3), { stand: OPEN, placement: { width: 0.8 } });
    const { base, frame } = findOnScan(scan, { ratio: 1 }, { ratio: 1.5 });
    // Without a blank the base carries the light's colour and brightness; falloff stays in it.
    for (let c = 0; c < 3; c++)
      expect(Math.abs(base!.density[c] - (truth.base![c] - Math.log10(truth.bare[c])))).toBeLessThan(0.04);
    expect(Math.abs(frame!.area.left - truth.area!.left) * SIZE.width).toBeLessThan(3);
  });

  it("is the same for a scan of half the size", () => {
    const small = { ...STAND, size: { width: 760, height: 506 } };
    const { scan, light, truth } = shoot(subject("portrait", 540, 360, 3), { stand: small, placement: { tilt: 0.5 } });
    const { frame } = findOnScan(scan, light, { ratio: 1.5 });
    expect(Math.abs(frame!.area.left - truth.area!.left) * SIZE.width).toBeLessThan(3);
    expect(Math.abs(frame!.area.tilt - truth.area!.tilt)).toBeLessThan(0.05);
  });

  it("does not take bare light for film", () => {
    const { width, height } = STAND.size;
    const blank = { width, height, data: new Uint16Array(width * height * 3).fill(40000), channels: 3 as const };
    const { field } = lightOf(STAND, { shutter: [1, 100], aperture: 8, iso: 100 });
    const scan = { ...blank, black: 512, scale: 1 / 60000 };
    // Its signal is even, so dividing by itself leaves 1 everywhere.
    const even = { ...field!, level: field!.level.map(() => (40000 - 512) / 60000) };
    expect(findBase(downsample(scan, { field: even, ratio: 1 }))).toBeUndefined();
  });
});

describe("the largest rectangle", () => {
  it("is the largest of all rectangles, tried one by one", () => {
    const [columns, rows] = [9, 7];
    for (let seed = 1; seed < 60; seed++) {
      const marked = Uint8Array.from({ length: columns * rows }, (_, i) =>
        ((i + 3) * 7919 * seed) % 101 < 70 ? 1 : 0,
      );
      let most = 0;
      for (let top = 0; top < rows; top++)
        for (let left = 0; left < columns; left++)
          for (let h = 1; top + h <= rows; h++)
            for (let w = 1; left + w <= columns; w++) {
              let all = true;
              for (let y = top; y < top + h; y++)
                for (let x = left; x < left + w; x++) if (!marked[y * columns + x]) all = false;
              if (all) most = Math.max(most, w * h);
            }
      const box = largestBox(marked, columns, rows);
      expect(box ? box.width * box.height : 0).toBe(most);
      let inside = 0;
      for (let i = 0; i < marked.length; i++) {
        const [x, y] = [i % columns, Math.floor(i / columns)];
        if (box && x >= box.left && x < box.left + box.width && y >= box.top && y < box.top + box.height)
          inside += marked[i];
      }
      expect(inside).toBe(most);
    }
  });
});
