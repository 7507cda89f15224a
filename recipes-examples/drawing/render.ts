/** Draws a world: soft light first, then every pixel once, then the pixels at edges three times more. */
import { throughAir } from "./air.ts";
import { Camera } from "./camera.ts";
import { Shader } from "./shader.ts";
import { softLight } from "./soft-light.ts";
import type { DeepPicture, World } from "./world.ts";

/** Places of the extra looks at an edge pixel; the first look was at its middle. */
const LOOKS = [
  [0.15, 0.3],
  [0.85, 0.4],
  [0.45, 0.9],
] as const;

export function render(world: World, width: number, height: number): DeepPicture {
  const camera = new Camera(world.camera, width, height);
  const shader = new Shader(world);
  const soft = softLight(shader, camera);
  const { tracer, s } = shader;
  const data = new Float32Array(width * height * 3);
  const depth = new Float32Array(width * height);
  const facing = new Int8Array(width * height * 3);
  const which = new Int32Array(width * height).fill(-1);
  const d = new Float64Array(3);
  const rgb = new Float64Array(3);
  const [ex, ey, ez] = camera.eye;
  const gain = 2 ** (world.exposure ?? 0);

  const look = (x: number, y: number, k: number): number => {
    camera.ray(x, y, d);
    const hit = shader.meet(camera.eye, d);
    if (hit < 0) {
      world.sky.at(d[0], d[1], d[2], rgb);
      return -1;
    }
    const far = tracer.t;
    shader.read(s, hit, ex, ey, ez, d[0], d[1], d[2], camera.spread);
    shader.colour(d[0], d[1], d[2], x, y, k, soft, camera.spread, rgb);
    if (world.air) throughAir(world.air, ey, d[0], d[1], d[2], far, rgb);
    tracer.t = far;
    return hit;
  };

  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      const hit = look(x + 0.5, y + 0.5, 0);
      data[i * 3] = rgb[0];
      data[i * 3 + 1] = rgb[1];
      data[i * 3 + 2] = rgb[2];
      if (hit < 0) {
        depth[i] = Infinity;
        continue;
      }
      depth[i] = tracer.t;
      which[i] = world.mesh.material[hit] + 1000 * Math.floor(world.mesh.own[hit] * 997);
      facing[i * 3] = shader.gx * 127;
      facing[i * 3 + 1] = shader.gy * 127;
      facing[i * 3 + 2] = shader.gz * 127;
    }

  const edge = edges(which, facing, depth, width, height);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      if (!edge[i]) continue;
      // A look that meets something blinding must not outshine the other three.
      let r = Math.min(data[i * 3], 8);
      let g = Math.min(data[i * 3 + 1], 8);
      let b = Math.min(data[i * 3 + 2], 8);
      LOOKS.forEach(([u, v], k) => {
        look(x + u, y + v, k + 1);
        r += Math.min(rgb[0], 8);
        g += Math.min(rgb[1], 8);
        b += Math.min(rgb[2], 8);
      });
      data[i * 3] = r / 4;
      data[i * 3 + 1] = g / 4;
      data[i * 3 + 2] = b / 4;
    }
  if (gain !== 1) for (let i = 0; i < data.length; i++) data[i] *= gain;
  return { width, height, data, depth };
}

/** Pixels whose right or lower neighbour shows another thing, another side of it, or something farther off. */
function edges(which: Int32Array, facing: Int8Array, depth: Float32Array, width: number, height: number): Uint8Array {
  const edge = new Uint8Array(width * height);
  const differ = (a: number, b: number): boolean => {
    if (which[a] !== which[b]) return true;
    if (which[a] < 0) return false;
    const n =
      facing[a * 3] * facing[b * 3] + facing[a * 3 + 1] * facing[b * 3 + 1] + facing[a * 3 + 2] * facing[b * 3 + 2];
    if (n < 14200) return true;
    return Math.abs(depth[a] - depth[b]) > 0.12 * Math.min(depth[a], depth[b]);
  };
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (x + 1 < width && differ(i, i + 1)) edge[i] = edge[i + 1] = 1;
      if (y + 1 < height && differ(i, i + width)) edge[i] = edge[i + width] = 1;
    }
  return edge;
}
