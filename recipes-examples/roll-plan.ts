/**
 * What lies on the demo's two rolls and how each picture lay under the copy camera. Everything is invented: the town of
 * Varnhaven, the stocks, the cameras. The recipes in harbour/ and breakwater/ were written by hand from this table.
 */
import { CAMERA_A, PANEL } from "../tests/witness/camera/cameras.ts";
import { scatterSensorDust, scatterDust, type Dust } from "../tests/witness/faults/dust.ts";
import { FORMAT_135 } from "../tests/witness/film/format.ts";
import { GOOD_SETUP, metered, type Exposure, type Placement, type Setup } from "../tests/witness/camera/setup.ts";
import { COALFISH_125, NORTHLIGHT_400, type Stock } from "../tests/witness/film/stocks.ts";
import type { SceneName } from "./scenes/index.ts";

/** One picture: what was photographed, how it was exposed on the film, and how the film lay when it was copied. */
export interface Shot {
  readonly frame: string;
  readonly scan: string;
  readonly scene: SceneName;
  /** Stops that the photographer gave more or less than metered. */
  readonly exposed: number;
  /** Middle of the picture, fractions of the scan, and degrees clockwise. */
  readonly centre: readonly [number, number];
  readonly tilt: number;
  /** Thirds of a stop by which the copy camera's automatic shutter was shorter than the longest that is safe. */
  readonly shorter: number;
  readonly specks: number;
}

export interface RollPlan {
  readonly folder: "harbour" | "breakwater";
  readonly stock: Stock;
  readonly shots: readonly Shot[];
  readonly blank: string;
  readonly leader: string;
  readonly seed: number;
}

/** Width of the picture in the scan: 2200 of 2400 pixels. */
export const PICTURE_WIDTH = 2200 / 2400;

export const CAMERA = CAMERA_A;
export const LIGHT = PANEL;

/** A careful home copy stand: the light falls off a little to the corners, three specks sit on the sensor. */
export const SETUP: Setup = { ...GOOD_SETUP, sensorDust: scatterSensorDust(3, 77) };

const shot = (
  frame: string,
  scan: string,
  scene: SceneName,
  exposed: number,
  centre: readonly [number, number],
  tilt: number,
  shorter: number,
  specks: number,
): Shot => ({ frame, scan, scene, exposed, centre, tilt, shorter, specks });

export const ROLLS: readonly RollPlan[] = [
  {
    folder: "harbour",
    stock: NORTHLIGHT_400,
    seed: 4001,
    blank: "LIGHT.dng",
    leader: "LEADER.dng",
    shots: [
      shot("01", "H0001.dng", "first-light", 0.2, [0.5, 0.501], -0.4, 0, 4),
      shot("02", "H0002.dng", "lighthouse", 0.3, [0.5015, 0.5], -0.3, 1, 3),
      shot("03", "H0003.dng", "quay-houses", 0.5, [0.5022, 0.4985], -0.15, 1, 5),
      shot("04", "H0004.dng", "market", 0.3, [0.5028, 0.4988], -0.05, 0, 3),
      shot("05", "H0005.dng", "fog-ferry", 0.7, [0.503, 0.4992], 0.1, 2, 3),
      shot("06", "H0006.dng", "meadow", 0.2, [0.5012, 0.5008], 0.25, 0, 4),
      shot("07", "H0007.dng", "boat-shed", 1.0, [0.5004, 0.5012], 0.3, 1, 4),
      shot("08", "H0008.dng", "skipper", 0.0, [0.4995, 0.5015], 0.2, 1, 3),
      shot("09", "H0009.dng", "still-life", 0.4, [0.499, 0.501], 0.05, 1, 6),
      shot("10", "H0010.dng", "dusk", 0.6, [0.4985, 0.5], -0.2, 2, 3),
    ],
  },
  {
    folder: "breakwater",
    stock: COALFISH_125,
    seed: 5001,
    blank: "LIGHT.dng",
    leader: "LEADER.dng",
    shots: [
      shot("11", "B0011.dng", "storm", 0.2, [0.5, 0.5], 0.3, 0, 4),
      shot("12", "B0012.dng", "bollard", 0.3, [0.5018, 0.4995], 0.2, 1, 5),
      shot("12A", "B0012A.dng", "net-mender", 0.5, [0.503, 0.5], -0.1, 2, 3),
    ],
  },
];

/** The picture's rectangle as recipes write it. */
export function placementOf(s: Shot): Placement {
  return { centre: s.centre, width: PICTURE_WIDTH, tilt: s.tilt, mirrored: false };
}

/** Shutter, aperture and sensitivity of a scan; `clearest` is what would clip first. */
export function exposureOf(clearest: Stock | "bare light", shorter: number): Exposure {
  return metered(CAMERA, LIGHT, SETUP, clearest, { aim: 0.8 * 2 ** (-shorter / 3) });
}

export function dustOf(s: Shot, seed: number): Dust[] {
  return scatterDust(FORMAT_135, { specks: s.specks, largest: 0.08 }, seed);
}
