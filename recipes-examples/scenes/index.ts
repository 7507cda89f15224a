/** The scenes by name. Each draws itself at any size in linear light: Rec.709, 0.18 = mid-grey, highlights above 1. */
import type { Picture } from "../drawing/world.ts";
import { draw as bollard } from "./bollard.ts";
import { draw as dusk } from "./dusk.ts";
import { draw as firstLight } from "./first-light.ts";
import { draw as fogFerry } from "./fog-ferry.ts";
import { draw as lighthouse } from "./lighthouse.ts";
import { draw as meadow } from "./meadow.ts";
import { draw as netMender } from "./net-mender.ts";
import { draw as quayHouses } from "./quay-houses.ts";
import { draw as stillLife } from "./still-life.ts";
import { draw as storm } from "./storm.ts";

export const SCENES = {
  bollard,
  "first-light": firstLight,
  "fog-ferry": fogFerry,
  dusk,
  lighthouse,
  meadow,
  "net-mender": netMender,
  "quay-houses": quayHouses,
  "still-life": stillLife,
  storm,
} as const satisfies Record<string, (width: number, height: number) => Picture>;

export type SceneName = keyof typeof SCENES;
