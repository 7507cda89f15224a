/** How small lights show: their shine on a surface, and the cone that a lamp's shade leaves them. */

/** Shine of a small light: widths add as slopes (Beckmann's form), skin reflectance by Schlick's. */
export function gloss(
  nx: number,
  ny: number,
  nz: number,
  dx: number,
  dy: number,
  dz: number,
  lx: number,
  ly: number,
  lz: number,
  m: number,
  shine: number,
  view: number,
): number {
  let hx = lx - dx;
  let hy = ly - dy;
  let hz = lz - dz;
  const l = 1 / Math.sqrt(hx * hx + hy * hy + hz * hz || 1);
  hx *= l;
  hy *= l;
  hz *= l;
  const c = Math.min(1, hx * nx + hy * ny + hz * nz);
  if (c < 0.05) return 0;
  const c2 = c * c;
  const m2 = m * m;
  const d = Math.exp((c2 - 1) / (c2 * m2)) / (m2 * c2 * c2);
  const f = shine + (1 - shine) * Math.pow(1 - Math.max(0, -(hx * dx + hy * dy + hz * dz)), 5);
  return (f * d) / (4 * Math.max(view, 0.08));
}

/** 1 inside a lamp's cone, 0 outside. */
export function under(within: number | undefined, ly: number, d2: number): number {
  if (within === undefined) return 1;
  const c = ly / Math.sqrt(d2);
  const edge = Math.cos((within * Math.PI) / 180);
  return c > edge ? Math.min(1, (c - edge) / 0.15) : 0;
}
