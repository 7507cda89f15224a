/** Seeded random numbers of the witness: the same seed gives the same numbers on every machine. */

export interface Random {
  /** 32 random bits. */
  bits(): number;
  /** Uniform in [0, 1). */
  uniform(): number;
  /** Uniform in [low, high). */
  between(low: number, high: number): number;
  /** Standard normal, cut at about 6 sigma. */
  normal(): number;
}

/** sfc32 (Doty-Humphrey's small fast counter; from memory), seeded from a number and an optional stream name. */
export function random(seed: number, stream = ""): Random {
  let a = mix(seed >>> 0);
  let b = mix(a ^ 0x9e3779b9);
  let c = 0x243f6a88;
  for (let i = 0; i < stream.length; i++) c = mix(c ^ stream.charCodeAt(i));
  let counter = 1;
  const bits = (): number => {
    const t = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + t) | 0;
    return t >>> 0;
  };
  for (let i = 0; i < 12; i++) bits();
  const uniform = (): number => bits() / 4294967296;
  return {
    bits,
    uniform,
    between: (low, high) => low + (high - low) * uniform(),
    normal: () => {
      const r = bits();
      return (NORMALS[r & 0xffff] + NORMALS[r >>> 16]) * Math.SQRT1_2;
    },
  };
}

/** Fills with standard normal numbers. */
export function fillNormal(out: Float32Array, source: Random): void {
  for (let i = 0; i < out.length; i++) {
    const r = source.bits();
    out[i] = (NORMALS[r & 0xffff] + NORMALS[r >>> 16]) * Math.SQRT1_2;
  }
}

function mix(x: number): number {
  x = Math.imul(x ^ (x >>> 16), 0x7feb352d);
  x = Math.imul(x ^ (x >>> 15), 0x846ca68b);
  return (x ^ (x >>> 16)) >>> 0;
}

/** The normal distribution's quantiles at 65 536 equal steps; the sum of two, over √2, is close to normal far out. */
const NORMALS = quantiles(65536);

function quantiles(n: number): Float32Array {
  const out = new Float32Array(n);
  let squares = 0;
  for (let i = 0; i < n / 2; i++) {
    const q = inverseNormal((i + 0.5) / n);
    out[i] = q;
    out[n - 1 - i] = -q;
    squares += 2 * q * q;
  }
  const scale = 1 / Math.sqrt(squares / n);
  for (let i = 0; i < n; i++) out[i] *= scale;
  return out;
}

/** Lower-half normal quantile by Newton steps on the integral of the density (complementary error function series). */
function inverseNormal(p: number): number {
  let x = -Math.sqrt(-2 * Math.log(p));
  for (let i = 0; i < 40; i++) {
    const step = (normalCdf(x) - p) / (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI));
    x -= step;
    if (Math.abs(step) < 1e-12) break;
  }
  return x;
}

function normalCdf(x: number): number {
  if (x < -2.5) {
    // Continued fraction of the tail: the series below loses digits there.
    let f = 0;
    for (let k = 60; k > 0; k--) f = k / (-x + f);
    return Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI) / (-x + f);
  }
  let term = x;
  let sum = x;
  for (let k = 1; k < 60; k++) {
    term *= (x * x) / (2 * k + 1);
    sum += term;
  }
  return 0.5 + (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * sum;
}
