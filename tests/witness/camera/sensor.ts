/** The sensor: colour filters, photon and read noise, black level, quantisation. */
import type { Camera } from "./cameras.ts";
import { random } from "../random.ts";

/** Channel (0 red, 1 green, 2 blue) of each site of the 2×2 cell, row by row. */
export function cfaChannels(camera: Camera): [number, number, number, number] {
  return [0, 1, 2, 3].map((site) => "RGB".indexOf(camera.cfa[site])) as [number, number, number, number];
}

/**
 * Light to digital numbers. `light` holds one value per pixel, 1 = saturation at the given ISO. Electrons arrive with
 * Poisson's variance (as a normal law: at a hundred electrons and more the difference is below the read noise).
 */
export function exposeSensor(
  camera: Camera,
  light: Float32Array,
  width: number,
  iso: number,
  noise: number,
  seed: number,
): Uint16Array {
  const source = random(seed, "sensor");
  const electrons = (camera.fullWell * camera.baseIso) / iso;
  const out = new Uint16Array(light.length);
  const read = camera.readNoise ** 2;
  for (let i = 0, x = 0, y = 0; i < light.length; i++) {
    const black = camera.black[((y & 1) << 1) | (x & 1)];
    const n = light[i] * electrons;
    const value = n + noise * Math.sqrt(n + read) * source.normal();
    const dn = black + (value / electrons) * (camera.white - black) + 0.5;
    out[i] = dn < 0 ? 0 : dn > camera.white ? camera.white : dn;
    if (++x === width) {
      x = 0;
      y++;
    }
  }
  return out;
}
