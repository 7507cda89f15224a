/** Faults of the copy stand, each injected alone, at a light or a strong level, into a scan that is otherwise good. */
import type { ScanRequest } from "../camera/camera.ts";
import { scatterSensorDust, scatterDust } from "./dust.ts";
import type { Setup } from "../camera/setup.ts";

export type Level = "light" | "strong";

/** Everything a fault may turn on: the request, the scan's number in its roll, and a seed. */
type Fault = (request: ScanRequest, level: Level, index: number, seed: number) => ScanRequest;

const withSetup = (r: ScanRequest, change: Partial<Setup>): ScanRequest => ({ ...r, setup: { ...r.setup, ...change } });

const longer = (r: ScanRequest, stops: number): ScanRequest => {
  const [seconds, of] = r.exposure.shutter;
  return {
    ...r,
    exposure: { ...r.exposure, shutter: [Math.max(1, Math.round(seconds * 1e5 * 2 ** stops)), of * 1e5] },
  };
};

const atAperture = (r: ScanRequest, aperture: number): ScanRequest => {
  const timed = longer(r, 2 * Math.log2(aperture / r.exposure.aperture));
  return { ...timed, exposure: { ...timed.exposure, aperture } };
};

const falloff = (r: ScanRequest, change: Partial<Setup["falloff"]>): ScanRequest =>
  withSetup(r, { falloff: { ...r.setup.falloff, ...change } });

const blur = (r: ScanRequest, change: Partial<Setup["blur"]>): ScanRequest =>
  withSetup(r, { blur: { ...r.setup.blur, ...change } });

const pick = <const T>(level: Level, light: T, strong: T): T => (level === "light" ? light : strong);

/** Blurs are in pixels of the scan, so that a fault is as visible in a small scan as in a large one. */
const faults = {
  /** Exposed until the base clips. */
  clipped: (r, level) => longer(r, pick(level, 0.7, 1.6)),
  underexposed: (r, level) => longer(r, pick(level, -3, -5)),
  unevenLight: (r, level) => falloff(r, { corners: pick(level, 0.25, 0.5), middle: [0.4, 0.45] }),
  twoColouredLight: (r, level) => falloff(r, { twoColours: pick(level, 0.025, 0.07) }),
  bandedLight: (r, level) => falloff(r, { banding: { swing: pick(level, 0.012, 0.04), period: r.height / 18 } }),
  flare: (r, level) => {
    const stray = pick(level, 0.02, 0.06);
    return withSetup(r, { stray: [stray, stray, 1.1 * stray] });
  },
  lightLeak: (r, level) =>
    withSetup(r, { leaks: [{ side: "right", strength: pick(level, 0.05, 0.2), reach: pick(level, 0.03, 0.06) }] }),
  unsharp: (r, level) => blur(r, { everywhere: pick(level, 1.3, 2.6) }),
  softCorners: (r, level) => blur(r, { corners: pick(level, 1.4, 3) }),
  /** The film plane is not parallel to the sensor: sharp along a line, soft towards one side. */
  filmTilted: (r, level) => blur(r, { tilt: [pick(level, 1.3, 3), 0] }),
  lateralColour: (r, level) =>
    withSetup(r, {
      lens: {
        red: pick(level, [0.0008, 0.0006], [0.002, 0.0015]),
        blue: pick(level, [-0.0005, -0.0008], [-0.0012, -0.002]),
      },
    }),
  shaken: (r, level) => withSetup(r, { shake: { length: pick(level, 3, 7), angle: 25 } }),
  dusty: (r, level, index, seed) =>
    r.film === "blank"
      ? r
      : {
          ...r,
          dust: scatterDust(
            r.film.format,
            { specks: pick(level, 32, 120), hairs: pick(level, 1, 5) },
            seed + 7919 * index,
          ),
        },
  /** The same dirt in every scan: `index` has no part in it. */
  dustySensor: (r, level, _index, seed) => withSetup(r, { sensorDust: scatterSensorDust(pick(level, 3, 12), seed) }),
  /** The picture creeps across the field from scan to scan. */
  drifting: (r, level, index) => {
    if (!r.placement) return r;
    const step = pick(level, 0.004, 0.012) * index;
    const [x, y] = r.placement.centre;
    return { ...r, placement: { ...r.placement, centre: [x + step, y - 0.4 * step] } };
  },
  /** Every other scan at a higher ISO and as much shorter a time. */
  mixedIso: (r, level, index) => {
    if (index % 2 === 0) return r;
    const stops = pick(level, 1, 3);
    const shorter = longer(r, -stops);
    return { ...shorter, exposure: { ...shorter.exposure, iso: r.exposure.iso * 2 ** stops } };
  },
  smallAperture: (r, level) => atAperture(r, pick(level, 16, 22)),
  /** Stopped down until diffraction alone blurs more than the pixels do; small scans have large pixels. */
  diffraction: (r, level) => atAperture(r, pick(level, 32, 45)),
  wideAperture: (r, level) => atAperture(r, pick(level, 2.8, 2)),
  /** Every scan and the blank above the lowest ISO, at as much shorter a time. */
  highIso: (r, level) => {
    const stops = pick(level, 2, 4);
    const shorter = longer(r, -stops);
    return { ...shorter, exposure: { ...shorter.exposure, iso: r.exposure.iso * 2 ** stops } };
  },
  /** Aperture priority: every other scan was metered by itself. */
  otherShutter: (r, level, index) => (index % 2 === 0 ? r : longer(r, pick(level, -0.33, -1))),
  /** Every other scan through another lens: the same kind, or one that draws more softly. */
  otherLens: (r, level, index) => {
    if (index % 2 === 0) return r;
    const other = { ...r, camera: { ...r.camera, lens: "Holm Copy 55mm" } };
    return level === "light" ? other : blur(other, { everywhere: 0.75 });
  },
  /** Emulsion the wrong way round. */
  mirrored: (r) => (r.placement ? { ...r, placement: { ...r.placement, mirrored: !r.placement.mirrored } } : r),
} satisfies Record<string, Fault>;

export type FaultName = keyof typeof faults;
export const FAULTS: Readonly<Record<FaultName, Fault>> = faults;
