/** Tells three scans of one picture, each under one narrow-band light, from three pictures under one light. */
import type { FirstPassScan } from "./first-pass.ts";

/** Times that a channel is ahead of the others under its own light; blue's photosites and green's are nearest. */
const AHEAD = 2;
/** Correlation of the pictures, each in its own channel, below which they are different ones. */
const MIN_AGREEMENT = 0.5;
/** Standard deviation of the logarithm of the signal below which a scan shows no picture. */
const EVEN = 0.05;

/** Three scans in a row, each with another channel far ahead, that show one picture: the first such; undefined without. */
export function threeLights(inOrder: readonly FirstPassScan[]): readonly FirstPassScan[] | undefined {
  for (let i = 0; i + 3 <= inOrder.length; i++) {
    const three = inOrder.slice(i, i + 3);
    const channels = three.map(({ middle }) => leading(middle));
    if (channels.includes(undefined) || new Set(channels).size < 3) continue;
    const tones = three.map(({ blocks }, k) => tonesOf(blocks, channels[k]!));
    if (agreement(tones[0]!, tones[1]!) > MIN_AGREEMENT && agreement(tones[0]!, tones[2]!) > MIN_AGREEMENT)
      return three;
  }
  return undefined;
}

/** The channel that is far ahead of the other two. */
function leading(middle: readonly number[]): number | undefined {
  const top = middle.indexOf(Math.max(...middle));
  return middle.every((signal, c) => c === top || signal * AHEAD < middle[top]!) ? top : undefined;
}

/** log10 of the signals of one channel less their mean. */
function tonesOf(blocks: Float32Array, channel: number): number[] {
  const tones: number[] = [];
  for (let i = channel; i < blocks.length; i += 3) tones.push(Math.log10(Math.max(1e-5, blocks[i]!)));
  const mean = tones.reduce((sum, v) => sum + v, 0) / tones.length;
  return tones.map((v) => v - mean);
}

/** Correlation, 0 where one of the two shows nothing. */
function agreement(a: readonly number[], b: readonly number[]): number {
  const product = (p: readonly number[], q: readonly number[]): number => p.reduce((sum, v, i) => sum + v * q[i]!, 0);
  const [aa, bb] = [product(a, a), product(b, b)];
  if (a.length !== b.length || Math.min(aa, bb) < EVEN ** 2 * a.length) return 0;
  return product(a, b) / Math.sqrt(aa * bb);
}
