/** The scenes by name. Each draws itself at any size in linear light: Rec.709, 0.18 = mid-grey, highlights above 1. */
import type { Picture } from "../drawing/world.ts";
import { draw as boatShed } from "./boat-shed.ts";
import { draw as bollard } from "./bollard.ts";
import { draw as dusk } from "./dusk.ts";
import { draw as firstLight } from "./first-light.ts";
import { draw as fogFerry } from "./fog-ferry.ts";
import { draw as lighthouse } from "./lighthouse.ts";
import { draw as market } from "./market.ts";
import { draw as meadow } from "./meadow.ts";
import { draw as netMender } from "./net-mender.ts";
import { draw as quayHouses } from "./quay-houses.ts";
import { draw as skipper } from "./skipper.ts";
import { draw as stillLife } from "./still-life.ts";
import { draw as storm } from "./storm.ts";

export const SCENES = {
  "boat-shed": boatShed,
  bollard,
  "first-light": firstLight,
  "fog-ferry": fogFerry,
  dusk,
  lighthouse,
  market,
  meadow,
  "net-mender": netMender,
  "quay-houses": quayHouses,
  skipper,
  "still-life": stillLife,
  storm,
} as const satisfies Record<string, (width: number, height: number) => Picture>;

export type SceneName = keyof typeof SCENES;
