/**
 * The sky: a clear gradient from horizon to zenith, the glow about the sun, layers of cloud, and what lies below the
 * horizon. Radiance is scene-referred: a matt white card in full sun of strength 1 has radiance 1.
 */
import { clamp, mix, smoothstep } from "./noise.ts";
import type { Vec } from "./vector.ts";

export type Light = readonly [number, number, number];

/** Paints over the clear sky: direction in, `out` holds the sky's colour so far. `fine` is false for cheap light readings. */
export type CloudLayer = (dx: number, dy: number, dz: number, out: Float64Array, fine: boolean) => void;

export interface SkySpec {
  readonly sun: Vec;
  readonly zenith: Light;
  readonly horizon: Light;
  /** How fast the horizon's colour is left behind on the way up; 4 hazy, 8 clear. */
  readonly clear?: number;
  /** Light scattered forward about the sun, and how tight it is (2 wide … 40 narrow). */
  readonly glow?: Light;
  readonly tight?: number;
  /** A band of the sun's colour along the horizon below it. */
  readonly band?: Light;
  /** What shines up from below the horizon. */
  readonly ground: Light;
  readonly clouds?: readonly CloudLayer[];
  /** The disc itself; left out when behind cloud. */
  readonly disc?: Light;
}

const COLUMNS = 96;
const ROWS = 40;
const OVER_COLUMNS = 16;
const OVER_ROWS = 9;

export class Sky {
  readonly spec: SkySpec;
  private readonly map = new Float32Array(COLUMNS * ROWS * 3);
  private readonly overMap = new Float32Array(OVER_COLUMNS * OVER_ROWS * 3);

  constructor(spec: SkySpec) {
    this.spec = spec;
    const out = new Float64Array(3);
    for (let j = 0; j < ROWS; j++)
      for (let i = 0; i < COLUMNS; i++) {
        const sum = [0, 0, 0];
        for (let k = 0; k < 6; k++) {
          const a = ((i + ((k % 3) + 0.5) / 3) / COLUMNS) * Math.PI * 2 - Math.PI;
          const y = ((j + ((k >> 1) % 2) * 0.5 + 0.25) / ROWS) * 2 - 1;
          const r = Math.sqrt(Math.max(0, 1 - y * y));
          this.paint(Math.sin(a) * r, y, -Math.cos(a) * r, out, false);
          for (let c = 0; c < 3; c++) sum[c] += out[c] / 6;
        }
        this.map.set(sum, (j * COLUMNS + i) * 3);
      }
    this.gather();
  }

  /** The sky as seen, clouds and sun and all. */
  at(dx: number, dy: number, dz: number, out: Float64Array): void {
    this.paint(dx, dy, dz, out, true);
    const { sun, disc } = this.spec;
    if (disc) {
      const d = dx * sun[0] + dy * sun[1] + dz * sun[2];
      const k = smoothstep(0.999972, 0.999985, d);
      for (let c = 0; c < 3; c++) out[c] += disc[c] * k;
    }
  }

  /** The sky without the sun's disc: as mirrored, for the sun's own shine is reckoned apart. */
  plain(dx: number, dy: number, dz: number, out: Float64Array): void {
    this.paint(dx, dy, dz, out, true);
  }

  /** The sky as light: smooth, quick to read, without the sun's disc. */
  soft(dx: number, dy: number, dz: number, out: Float64Array): void {
    const a = ((Math.atan2(dx, -dz) + Math.PI) / (Math.PI * 2)) * COLUMNS - 0.5;
    const b = clamp(((dy + 1) / 2) * ROWS - 0.5, 0, ROWS - 1.001);
    const fa = Math.floor(a);
    const j = Math.floor(b);
    const ta = a - fa;
    const tb = b - j;
    const i0 = ((fa + COLUMNS) % COLUMNS) * 3;
    const i1 = ((fa + 1 + COLUMNS) % COLUMNS) * 3;
    const r0 = j * COLUMNS * 3;
    const r1 = r0 + COLUMNS * 3;
    const m = this.map;
    for (let c = 0; c < 3; c++)
      out[c] =
        (m[r0 + i0 + c] * (1 - ta) + m[r0 + i1 + c] * ta) * (1 - tb) +
        (m[r1 + i0 + c] * (1 - ta) + m[r1 + i1 + c] * ta) * tb;
  }

  /** Sky light that falls on a surface facing n, the sun left out: radiance of a matt white card there. */
  over(nx: number, ny: number, nz: number, out: Float64Array): void {
    const b = clamp(((ny + 1) / 2) * (OVER_ROWS - 1), 0, OVER_ROWS - 1.001);
    const a = ((Math.atan2(nx, -nz) + Math.PI) / (Math.PI * 2)) * OVER_COLUMNS - 0.5;
    const fa = Math.floor(a);
    const j = Math.floor(b);
    const ta = a - fa;
    const tb = b - j;
    const i0 = ((fa + OVER_COLUMNS) % OVER_COLUMNS) * 3;
    const i1 = ((fa + 1 + OVER_COLUMNS) % OVER_COLUMNS) * 3;
    const r0 = j * OVER_COLUMNS * 3;
    const r1 = r0 + OVER_COLUMNS * 3;
    const m = this.overMap;
    for (let c = 0; c < 3; c++)
      out[c] =
        (m[r0 + i0 + c] * (1 - ta) + m[r0 + i1 + c] * ta) * (1 - tb) +
        (m[r1 + i0 + c] * (1 - ta) + m[r1 + i1 + c] * ta) * tb;
  }

  /** Cosine-weighted means of the map. */
  private gather(): void {
    for (let j = 0; j < OVER_ROWS; j++)
      for (let i = 0; i < OVER_COLUMNS; i++) {
        const ny = (j / (OVER_ROWS - 1)) * 2 - 1;
        const a = ((i + 0.5) / OVER_COLUMNS) * Math.PI * 2 - Math.PI;
        const q = Math.sqrt(Math.max(0, 1 - ny * ny));
        const nx = Math.sin(a) * q;
        const nz = -Math.cos(a) * q;
        const sum = [0, 0, 0];
        let weight = 0;
        for (let y = 0; y < ROWS; y++)
          for (let x = 0; x < COLUMNS; x += 2) {
            const b = ((x + 0.5) / COLUMNS) * Math.PI * 2 - Math.PI;
            const dy = ((y + 0.5) / ROWS) * 2 - 1;
            const r = Math.sqrt(1 - dy * dy);
            const c = Math.sin(b) * r * nx + dy * ny - Math.cos(b) * r * nz;
            if (c <= 0) continue;
            weight += c;
            for (let k = 0; k < 3; k++) sum[k] += this.map[(y * COLUMNS + x) * 3 + k] * c;
          }
        for (let k = 0; k < 3; k++) this.overMap[(j * OVER_COLUMNS + i) * 3 + k] = sum[k] / weight;
      }
  }

  private paint(dx: number, dy: number, dz: number, out: Float64Array, fine: boolean): void {
    const { sun, zenith, horizon, ground, glow, band, clouds } = this.spec;
    const up = Math.max(0, dy);
    const k = Math.exp(-up * (this.spec.clear ?? 5));
    const d = dx * sun[0] + dy * sun[1] + dz * sun[2];
    for (let c = 0; c < 3; c++) out[c] = mix(zenith[c], horizon[c], k);
    if (glow) {
      const x = Math.max(0, 1 - d);
      const g = 1 / (1 + x * (this.spec.tight ?? 12) * 4) + 0.6 / (1 + x * 900);
      for (let c = 0; c < 3; c++) out[c] += glow[c] * g * g;
    }
    if (band) {
      const flat =
        (dx * sun[0] + dz * sun[2]) / (Math.sqrt((dx * dx + dz * dz) * (sun[0] * sun[0] + sun[2] * sun[2])) || 1);
      const g = Math.exp(-up * 9) * Math.pow(0.5 + 0.5 * flat, 3);
      for (let c = 0; c < 3; c++) out[c] += band[c] * g;
    }
    if (clouds && dy > 0.004) for (const layer of clouds) layer(dx, dy, dz, out, fine);
    if (dy < 0.01) {
      const t = smoothstep(0.01, -0.06, dy);
      for (let c = 0; c < 3; c++) out[c] = mix(out[c], ground[c], t);
    }
  }
}
