/** A point on a thing, as the light meets it. Materials read the place and write how the surface takes light. */
export interface Surface {
  /** Place in the scene, metres. */
  x: number;
  y: number;
  z: number;
  /** Outward normal; a material may lean it to draw grain and joints. */
  nx: number;
  ny: number;
  nz: number;
  /** Coordinates on the surface, metres along it where the shape gives metres. */
  u: number;
  v: number;
  /** What one pixel covers there, metres. */
  foot: number;
  /** The thing's own number, 0 … 1. */
  own: number;
  /** Reflectance of the body, linear Rec.709. */
  r: number;
  g: number;
  b: number;
  /** Light the surface gives off, linear Rec.709. */
  er: number;
  eg: number;
  eb: number;
  /** Reflectance of the skin seen head on: 0 for cloth, 0.02 water, 0.04 paint, 0.5 and more for metal. */
  shine: number;
  /** Width of the shine: 0.02 polished … 1 matt. */
  rough: number;
  /** Part of the light that comes through from behind (leaves, canvas). */
  through: number;
  /** True when the shine is worth a traced ray (water, wet stone, enamel). */
  mirror: boolean;
}

export type Material = (s: Surface) => void;

export function surface(): Surface {
  return {
    x: 0,
    y: 0,
    z: 0,
    nx: 0,
    ny: 1,
    nz: 0,
    u: 0,
    v: 0,
    foot: 0,
    own: 0,
    r: 0,
    g: 0,
    b: 0,
    er: 0,
    eg: 0,
    eb: 0,
    shine: 0,
    rough: 1,
    through: 0,
    mirror: false,
  };
}

/** Sets the body colour. */
export function paint(s: Surface, r: number, g: number, b: number): void {
  s.r = r;
  s.g = g;
  s.b = b;
}

/** Lets the body colour lean towards another. */
export function tint(s: Surface, r: number, g: number, b: number, amount: number): void {
  s.r += (r - s.r) * amount;
  s.g += (g - s.g) * amount;
  s.b += (b - s.b) * amount;
}

/** Makes the body lighter or darker. */
export function dim(s: Surface, k: number): void {
  s.r *= k;
  s.g *= k;
  s.b *= k;
}

/** Makes the normal's length 1 again. */
export function straighten(s: Surface): void {
  const l = 1 / Math.sqrt(s.nx * s.nx + s.ny * s.ny + s.nz * s.nz || 1);
  s.nx *= l;
  s.ny *= l;
  s.nz *= l;
}

/** Leans the normal by slopes along two directions of the surface: its own x–z plane when flat, its side and height when upright. */
export function lean(s: Surface, along: number, up: number): void {
  if (Math.abs(s.ny) > 0.7) {
    s.nx -= along;
    s.nz -= up;
  } else {
    const l = 1 / Math.sqrt(s.nx * s.nx + s.nz * s.nz || 1);
    s.nx -= along * s.nz * l;
    s.nz += along * s.nx * l;
    s.ny -= up;
  }
  straighten(s);
}
