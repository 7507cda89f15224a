/** The solid things of a scene: triangles with smooth normals, surface coordinates, a material and a number of their own. */
import type { Material } from "./surface.ts";
import { after, here, type Placement, type Vec } from "./vector.ts";

/** What the tracer reads: corner points, and per triangle its three corners, its material and its own number. */
export interface Mesh {
  readonly point: Float32Array;
  readonly normal: Float32Array;
  readonly uv: Float32Array;
  readonly corner: Uint32Array;
  readonly material: Uint16Array;
  readonly own: Float32Array;
  readonly materials: readonly Material[];
}

/** Gathers triangles. Things are built about their own origin and put in place by `at`. */
export class Builder {
  readonly materials: Material[] = [];
  private readonly point: number[] = [];
  private readonly normal: number[] = [];
  private readonly uv: number[] = [];
  private readonly corner: number[] = [];
  private readonly paint: number[] = [];
  private readonly numbers: number[] = [];
  private placement: Placement = here;
  private material = 0;
  private own = 0;

  /** Builds with `make` at a placement inside the present one. */
  at(placement: Placement, make: () => void): void {
    const before = this.placement;
    this.placement = after(before, placement);
    make();
    this.placement = before;
  }

  /** What follows is of this material; `own` tells two alike things apart (0 … 1). */
  use(material: Material, own = this.own): this {
    let i = this.materials.indexOf(material);
    if (i < 0) i = this.materials.push(material) - 1;
    this.material = i;
    this.own = own;
    return this;
  }

  /** Adds a corner point; returns its number. The normal need not be of unit length. */
  vertex(p: Vec, n: Vec, u: number, v: number): number {
    const m = this.placement;
    this.point.push(
      m[0] * p[0] + m[1] * p[1] + m[2] * p[2] + m[3],
      m[4] * p[0] + m[5] * p[1] + m[6] * p[2] + m[7],
      m[8] * p[0] + m[9] * p[1] + m[10] * p[2] + m[11],
    );
    // Normals go by the cofactors, so that stretched things are lit right.
    const nx =
      (m[5] * m[10] - m[6] * m[9]) * n[0] + (m[6] * m[8] - m[4] * m[10]) * n[1] + (m[4] * m[9] - m[5] * m[8]) * n[2];
    const ny =
      (m[2] * m[9] - m[1] * m[10]) * n[0] + (m[0] * m[10] - m[2] * m[8]) * n[1] + (m[1] * m[8] - m[0] * m[9]) * n[2];
    const nz =
      (m[1] * m[6] - m[2] * m[5]) * n[0] + (m[2] * m[4] - m[0] * m[6]) * n[1] + (m[0] * m[5] - m[1] * m[4]) * n[2];
    const l = 1 / Math.sqrt(nx * nx + ny * ny + nz * nz || 1);
    this.normal.push(nx * l, ny * l, nz * l);
    this.uv.push(u, v);
    return this.point.length / 3 - 1;
  }

  triangle(a: number, b: number, c: number): void {
    this.corner.push(a, b, c);
    this.paint.push(this.material);
    this.numbers.push(this.own);
  }

  get triangles(): number {
    return this.paint.length;
  }

  done(): Mesh {
    return {
      point: new Float32Array(this.point),
      normal: new Float32Array(this.normal),
      uv: new Float32Array(this.uv),
      corner: new Uint32Array(this.corner),
      material: new Uint16Array(this.paint),
      own: new Float32Array(this.numbers),
      materials: this.materials,
    };
  }
}
