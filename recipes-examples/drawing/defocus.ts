/** Things out of focus: each pixel gathers from a disc of its own blur, reckoned at half size and laid over what is sharp. */
import { smoothstep } from "./noise.ts";
import type { DeepPicture } from "./world.ts";

const TAPS = 48;

/** The picture at half size: light, distance, and radius of the blur in half-size pixels. */
interface Half {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
  readonly depth: Float32Array;
  readonly radius: Float32Array;
}

/** `focus` is the distance in focus, metres; `infinity` the blur's radius at infinity, pixels. */
export function defocus(picture: DeepPicture, focus: number, infinity: number): void {
  const half = reduce(picture, focus, infinity / 2);
  const { blurred, reach } = gather(half, infinity / 2);
  const { width, height, data } = picture;
  for (let y = 0, o = 0; y < height; y++) {
    const v = Math.max(0, Math.min(half.height - 1.001, y / 2 - 0.25));
    const j = Math.floor(v);
    const tv = v - j;
    for (let x = 0; x < width; x++, o += 3) {
      const u = Math.max(0, Math.min(half.width - 1.001, x / 2 - 0.25));
      const i = Math.floor(u);
      const tu = u - i;
      const a = j * half.width + i;
      const b = a + half.width;
      const r = (reach[a] * (1 - tu) + reach[a + 1] * tu) * (1 - tv) + (reach[b] * (1 - tu) + reach[b + 1] * tu) * tv;
      const k = smoothstep(0.35, 1.1, r);
      if (k === 0) continue;
      for (let c = 0; c < 3; c++) {
        const top = blurred[a * 3 + c] * (1 - tu) + blurred[a * 3 + 3 + c] * tu;
        const low = blurred[b * 3 + c] * (1 - tu) + blurred[b * 3 + 3 + c] * tu;
        data[o + c] += (top + (low - top) * tv - data[o + c]) * k;
      }
    }
  }
}

function reduce({ width, height, data, depth }: DeepPicture, focus: number, infinity: number): Half {
  const w = width >> 1;
  const h = height >> 1;
  const out = {
    width: w,
    height: h,
    data: new Float32Array(w * h * 3),
    depth: new Float32Array(w * h),
    radius: new Float32Array(w * h),
  };
  for (let y = 0, i = 0; y < h; y++)
    for (let x = 0; x < w; x++, i++) {
      const a = (y * width + x) * 2;
      const b = a + width;
      for (let c = 0; c < 3; c++)
        out.data[i * 3 + c] = (data[a * 3 + c] + data[a * 3 + 3 + c] + data[b * 3 + c] + data[b * 3 + 3 + c]) / 4;
      const d = Math.min(depth[a], depth[a + 1], depth[b], depth[b + 1]);
      out.depth[i] = d;
      out.radius[i] = d === Infinity ? infinity : infinity * Math.min(2, Math.abs(1 - focus / d));
    }
  return out;
}

function gather(half: Half, infinity: number): { blurred: Float32Array; reach: Float32Array } {
  const { width, height, data, depth, radius } = half;
  const blurred = new Float32Array(data.length);
  const reach = new Float32Array(radius.length);
  const taps = spiral(TAPS);
  const edge = spiral(8);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      // Blur comes from the pixel itself, or from a nearer and more blurred neighbour: look as far as that.
      let far = radius[i];
      for (let k = 0; k < 8; k++) {
        const u = Math.round(x + edge[k * 3] * infinity);
        const v = Math.round(y + edge[k * 3 + 1] * infinity);
        if (u < 0 || v < 0 || u >= width || v >= height) continue;
        const j = v * width + u;
        if (depth[j] < depth[i] && radius[j] > far) far = Math.min(radius[j], infinity);
      }
      reach[i] = far;
      let r = data[i * 3];
      let g = data[i * 3 + 1];
      let b = data[i * 3 + 2];
      let sum = 1;
      if (far > 0.3) {
        // A turned spiral at every pixel: what the few taps miss becomes fine grain, not rings.
        const turn = ((x * 7 + y * 13) % 16) * 0.3927;
        const c = Math.cos(turn) * far;
        const s = Math.sin(turn) * far;
        const step = far < 2 ? 3 : 1;
        for (let k = 0; k < TAPS; k += step) {
          const u = Math.round(x + taps[k * 3] * c - taps[k * 3 + 1] * s);
          const v = Math.round(y + taps[k * 3] * s + taps[k * 3 + 1] * c);
          if (u < 0 || v < 0 || u >= width || v >= height) continue;
          const j = v * width + u;
          const own = depth[j] >= depth[i] && radius[j] > radius[i] ? radius[i] : radius[j];
          const w = Math.max(0, Math.min(1, own - taps[k * 3 + 2] * far + 1));
          r += data[j * 3] * w;
          g += data[j * 3 + 1] * w;
          b += data[j * 3 + 2] * w;
          sum += w;
        }
      }
      blurred[i * 3] = r / sum;
      blurred[i * 3 + 1] = g / sum;
      blurred[i * 3 + 2] = b / sum;
    }
  return { blurred, reach };
}

/** Points spread evenly over a disc of radius 1 from its middle outwards: x, y and radius of each. */
function spiral(n: number): Float64Array {
  const out = new Float64Array(n * 3);
  for (let i = 0; i < n; i++) {
    const r = Math.sqrt((i + 0.5) / n);
    out.set([Math.cos(i * 2.399963) * r, Math.sin(i * 2.399963) * r, r], i * 3);
  }
  return out;
}
