/** Air between the camera and things: haze that thins with height, tinted, and bright towards the sun. */
import type { Light } from "./sky.ts";
import type { Vec } from "./vector.ts";

export interface AirSpec {
  /** Extinction per metre at the ground, red, green, blue. */
  readonly thickness: Light;
  /** Height, in metres, over which it thins to a third. */
  readonly height: number;
  /** Its own colour, away from the sun. */
  readonly colour: Light;
  /** What it adds towards the sun, and how tight (2 … 40). */
  readonly glow?: Light;
  readonly tight?: number;
  readonly sun?: Vec;
}

/** Puts `far` metres of air before a colour; the ray starts at height `y` in direction d. */
export function throughAir(
  air: AirSpec,
  y: number,
  dx: number,
  dy: number,
  dz: number,
  far: number,
  out: Float64Array,
): void {
  const h = air.height;
  const fall = (dy * far) / h;
  const mean = Math.abs(fall) < 1e-4 ? 1 : (1 - Math.exp(-fall)) / fall;
  const path = far * mean * Math.exp(-Math.max(0, y) / h);
  let g = 0;
  if (air.glow && air.sun) {
    const d = Math.max(0, 1 - (dx * air.sun[0] + dy * air.sun[1] + dz * air.sun[2]));
    g = 1 / (1 + d * (air.tight ?? 8) * 4);
    g *= g;
  }
  for (let c = 0; c < 3; c++) {
    const clear = Math.exp(-air.thickness[c] * path);
    out[c] = out[c] * clear + (air.colour[c] + (air.glow ? air.glow[c] * g : 0)) * (1 - clear);
  }
}
