/** The camera that took the picture: a lens on 36 × 24 mm film, with a rising front so that walls can stay upright. */
import { cross, unit, type Vec } from "./vector.ts";

export interface CameraSpec {
  readonly eye: Vec;
  /** Degrees to the right of straight ahead (−z). */
  readonly turn?: number;
  /** Degrees up. */
  readonly pitch?: number;
  /** Degrees of slant of the horizon. */
  readonly roll?: number;
  /** Focal length, mm. */
  readonly focal: number;
  /** Rise of the front, mm: moves the horizon down in the picture without turning walls. */
  readonly rise?: number;
}

export class Camera {
  readonly eye: Vec;
  readonly forward: Vec;
  readonly right: Vec;
  readonly up: Vec;
  readonly width: number;
  readonly height: number;
  /** What a pixel covers at a distance of one metre. */
  readonly spread: number;
  private readonly kx: number;
  private readonly ky: number;
  private readonly rise: number;

  constructor(spec: CameraSpec, width: number, height: number) {
    const a = ((spec.turn ?? 0) * Math.PI) / 180;
    const e = ((spec.pitch ?? 0) * Math.PI) / 180;
    const r = ((spec.roll ?? 0) * Math.PI) / 180;
    this.eye = spec.eye;
    this.forward = [Math.sin(a) * Math.cos(e), Math.sin(e), -Math.cos(a) * Math.cos(e)];
    const side = unit(cross(this.forward, [0, 1, 0]));
    const up = cross(side, this.forward);
    const c = Math.cos(r);
    const s = Math.sin(r);
    this.right = [side[0] * c + up[0] * s, side[1] * c + up[1] * s, side[2] * c + up[2] * s];
    this.up = [up[0] * c - side[0] * s, up[1] * c - side[1] * s, up[2] * c - side[2] * s];
    this.width = width;
    this.height = height;
    this.kx = 36 / spec.focal;
    this.ky = (this.kx * height) / width;
    this.rise = (spec.rise ?? 0) / spec.focal;
    this.spread = this.kx / width;
  }

  /** Direction, of unit length, through a place of the picture in pixels (0, 0 = upper left corner). */
  ray(x: number, y: number, out: Float64Array): void {
    const a = (x / this.width - 0.5) * this.kx;
    const b = (0.5 - y / this.height) * this.ky + this.rise;
    const { forward: f, right: r, up: u } = this;
    const dx = f[0] + r[0] * a + u[0] * b;
    const dy = f[1] + r[1] * a + u[1] * b;
    const dz = f[2] + r[2] * a + u[2] * b;
    const l = 1 / Math.sqrt(dx * dx + dy * dy + dz * dz);
    out[0] = dx * l;
    out[1] = dy * l;
    out[2] = dz * l;
  }

  /** Where a point falls in the picture, in pixels, and how far ahead it lies; undefined behind the camera. */
  project(p: Vec): { x: number; y: number; ahead: number } | undefined {
    const dx = p[0] - this.eye[0];
    const dy = p[1] - this.eye[1];
    const dz = p[2] - this.eye[2];
    const { forward: f, right: r, up: u } = this;
    const ahead = dx * f[0] + dy * f[1] + dz * f[2];
    if (ahead < 0.05) return undefined;
    const a = (dx * r[0] + dy * r[1] + dz * r[2]) / ahead;
    const b = (dx * u[0] + dy * u[1] + dz * u[2]) / ahead;
    return { x: (a / this.kx + 0.5) * this.width, y: (0.5 - (b - this.rise) / this.ky) * this.height, ahead };
  }
}
