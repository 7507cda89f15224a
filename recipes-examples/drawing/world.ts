/** All that a scene is made of: things, light, air and the camera that looks at them. */
import type { AirSpec } from "./air.ts";
import type { CameraSpec } from "./camera.ts";
import type { Mesh } from "./mesh.ts";
import type { Light, Sky } from "./sky.ts";
import type { Vec } from "./vector.ts";

/** A picture in linear light: Rec.709 primaries, scene-referred, 0.18 = mid-grey, highlights above 1 kept. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Interleaved red, green, blue. */
  readonly data: Float32Array;
}

/** A picture with how far away each pixel is, metres; Infinity for the sky. */
export interface DeepPicture extends Picture {
  readonly depth: Float32Array;
}

export interface Sun {
  readonly toward: Vec;
  /** Radiance of a matt white card that faces it. */
  readonly light: Light;
  /** Half its apparent width, degrees; larger for a sun behind thin cloud. */
  readonly size?: number;
}

/** A glowing ball. Its light falls off with the square of the distance. */
export interface Lamp {
  readonly at: Vec;
  readonly radius: number;
  /** Radiance of a matt white card one metre away. */
  readonly light: Light;
  /** Shines within this many degrees of straight down only. */
  readonly within?: number;
}

/** A window or doorway that lets the sky in: a corner and two edges; inside is edge1 × edge2. */
export interface Opening {
  readonly corner: Vec;
  readonly edge1: Vec;
  readonly edge2: Vec;
  readonly gain?: number;
}

export interface World {
  readonly camera: CameraSpec;
  readonly mesh: Mesh;
  readonly sky: Sky;
  readonly sun?: Sun;
  readonly lamps?: readonly Lamp[];
  readonly openings?: readonly Opening[];
  readonly air?: AirSpec;
  /** Light that has been reflected more than twice, as it reaches every place. */
  readonly fill?: Light;
  /** Part of the sky that a reflected surface sees; the first surface's own part is traced. */
  readonly open?: number;
  /** Rays for sky light at every ninth pixel. */
  readonly rays?: number;
  /** Rays for a mirror's reflection; 0 mirrors the soft sky without tracing, for an open sea. */
  readonly mirrorRays?: number;
  /** Brightness of the whole in stops, as set on the camera. */
  readonly exposure?: number;
}
