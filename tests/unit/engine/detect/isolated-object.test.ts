import { expect, it } from "vitest";
import { cellsOf } from "../../../../extension/engine/detect/uniform-tiles.ts";
import { isolatedObject } from "../../../../extension/engine/detect/isolated-object.ts";
import { downsample } from "../../../../extension/engine/detect/downsampled-scan.ts";
import { scatterDust } from "../../../witness/faults/dust.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";
import { evenScene, paint, type Scene } from "../../../witness/scenes/scene.ts";
import { shoot, type Shot } from "./scans.ts";

const seenOn = (scene: Scene | "leader", shot?: Shot): number =>
  isolatedObject(cellsOf(downsample(shoot(scene, shot).scan, { ratio: 1 }, 600)));

const night = (things: readonly (readonly [left: number, top: number, side: number])[]): Scene => {
  const scene = evenScene(540, 360, [1e-5, 1e-5, 1e-5]);
  for (const [left, top, side] of things)
    paint(scene, { left, top, width: side, height: 1.5 * side }, [0.4, 0.4, 0.35]);
  return scene;
};

it("a leader shows nothing, dusty as it may be, and fogged at its end", () => {
  const dust = scatterDust(FORMAT_135, { specks: 60, hairs: 4 }, 3);
  expect(seenOn("leader", { request: { dust } })).toBeLessThan(0.015);
  expect(seenOn(night([[0, 0, 0.35]]))).toBeLessThan(0.015);
});

it("a moon of a thirtieth of the picture's width is a thing", () => {
  const seen = seenOn(night([[0.6, 0.3, 0.033]]));
  expect(seen).toBeGreaterThan(0.015);
  expect(seen).toBeLessThan(0.033);
});
