/** Three invented narrow-band lights, and one piece of film photographed under each of them in turn. */
import { photographFilm, type Scan, type ScanRequest } from "./camera.ts";
import type { Camera, Light } from "./cameras.ts";
import { metered, type Setup } from "./setup.ts";
import { lobe } from "../spectra/spectrum.ts";

/** Half-widths of about 20, 30 and 20 nm, as of LEDs of one colour. */
export const THREE_LIGHTS: Readonly<Record<"green" | "red" | "blue", Light>> = {
  green: { name: "green", power: lobe(524, 13) },
  red: { name: "red", power: lobe(636, 9) },
  blue: { name: "blue", power: lobe(452, 9) },
};

/** In the order in which a frame's scans are listed. */
export const LIGHT_NAMES = ["green", "red", "blue"] as const;

/** The longest shutter time for each light that leaves its bare light unclipped. */
export const meteredThree = (camera: Camera, setup: Setup) =>
  LIGHT_NAMES.map((name) => metered(camera, THREE_LIGHTS[name], setup, "bare light"));

/**
 * Three scans, green, red, blue, each metered for its own light.
 * @param moved how far the film lies beside its place on each, fractions of the scan's sides
 */
export function photographThree(
  request: Omit<ScanRequest, "light" | "exposure">,
  seed: number,
  moved: readonly (readonly [number, number])[] = [],
): Scan[] {
  const exposures = meteredThree(request.camera, request.setup);
  return LIGHT_NAMES.map((name, i) => {
    const [dx, dy] = moved[i] ?? [0, 0];
    const { placement } = request;
    const centre = placement && ([placement.centre[0] + dx, placement.centre[1] + dy] as const);
    const placed = placement && centre ? { placement: { ...placement, centre } } : {};
    return photographFilm({ ...request, ...placed, light: THREE_LIGHTS[name], exposure: exposures[i] }, seed + i);
  });
}
