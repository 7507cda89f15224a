/**
 * Every picture of a scan that shows several: found, each edge within 3 pixels of the scan and its tilt within 0.05°.
 * The truth is the witness's own geometry.
 */
import { describe, expect, it } from "vitest";
import { findOnScan } from "../../../../../extension/engine/detect/index.ts";
import { subject } from "../../../../witness/scenes/subjects.ts";
import { variant } from "../../../../witness/scenes/varied.ts";
import { evenScene, paint } from "../../../../witness/scenes/scene.ts";
import { shoot, STAND } from "../scans.ts";
import { HELD_OUT, type StripCase, TRAIN, TUNE } from "./cases.ts";
import { shootCase } from "./strips.ts";

function check(one: StripCase): void {
  const { scan, light, areas, made } = shootCase(one);
  const { strips, frame, base } = findOnScan(scan, light, { several: true });
  expect(frame).toBeUndefined();
  const [first, count] = one.whole ?? [0, areas.length];
  expect(strips!.frames).toHaveLength(count);
  for (const [k, { area: is }] of strips!.frames.entries()) {
    const was = areas[first + k];
    const sides = (area: typeof was): number[] => [
      area.left * scan.width,
      area.top * scan.height,
      (area.left + area.width) * scan.width,
      (area.top + area.height) * scan.height,
    ];
    for (const [side, at] of sides(is).entries()) expect(Math.abs(at - sides(was)[side]), `${k}`).toBeLessThan(3);
    expect(Math.abs(is.tilt - was.tilt), `${k}`).toBeLessThan(0.05);
  }
  const cut = one.whole ? ["left", "right"] : [];
  expect(strips!.cutOff.map(({ side }) => side)).toEqual(cut);
  // Beside a strip that lies open on the light, flare is several times a masked frame's, and no holder shows it.
  const error = one.stand?.setup?.opening ? 0.005 : 0.015;
  for (let c = 0; c < 3; c++) expect(Math.abs(base!.density[c] - made.truth.base![c])).toBeLessThan(error);
}

describe("pictures of a strip, seen while the finder was written", () => {
  it.each(TRAIN.slice(0, 3))("$name", check);
});

describe("pictures of a strip, on which limits were set", () => {
  it.each(TUNE)("$name", check);
});

describe("pictures of a strip, drawn after the last limit was set", () => {
  it.each(HELD_OUT)("$name", check);
});

describe("one picture stays one", () => {
  const OPEN = { ...STAND, setup: { ...STAND.setup, opening: undefined } };

  it.each(["portrait", "street", "night", "snow"] as const)("%s, without a stated format", (name) => {
    const { scan, light } = shoot(subject(name, 540, 360, 17), { placement: { tilt: 0.4 } });
    expect(findOnScan(scan, light, { several: true }).strips).toBeUndefined();
  });

  it.each(["town", "wood", "room"] as const)("%s with its neighbours at the scan's borders", (name) => {
    const { scan, light } = shoot(variant(name, 23, 540, 360), {
      stand: OPEN,
      film: { margin: [8, 4] },
      placement: { width: 0.8, tilt: -0.3 },
    });
    expect(findOnScan(scan, light, { several: true }).strips).toBeUndefined();
  });

  it("lit windows of one size in a black night", () => {
    const scene = evenScene(540, 360, [0, 0, 0]);
    for (let k = 0; k < 4; k++)
      paint(scene, { left: 0.05 + 0.235 * k, top: 0.28, width: 0.18, height: 0.405 }, [0.6, 0.4, 0.2]);
    const { scan, light } = shoot(scene, { stand: OPEN, placement: { width: 0.84 } });
    expect(findOnScan(scan, light, { several: true }).strips).toBeUndefined();
  });

  it("a black bar down the middle of a picture", () => {
    const scene = subject("street", 540, 360, 5);
    paint(scene, { left: 0.49, top: 0, width: 0.03, height: 1 }, [0, 0, 0]);
    const { scan, light } = shoot(scene, { placement: { tilt: 0.2 } });
    expect(findOnScan(scan, light, { several: true }).strips).toBeUndefined();
  });
});
