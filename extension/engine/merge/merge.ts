/** Merges exposures of one picture into one scan, however many there are, with three in memory at a time. */
import type { LinearScan, Rgb } from "../types.ts";
import { candidateOf } from "./agreement.ts";
import { align, type Alignment, noDisplacement } from "./align.ts";
import { combine } from "./combine.ts";
import { logPlanes } from "./log-planes.ts";
import { type LaidScan, measureNoise, type NoiseModel } from "./noise.ts";
import { wellExposed } from "./well-exposed.ts";

/** How a scan lies on the first one, and how it was exposed. */
export interface PartReading extends Pick<Alignment, "displacement" | "uncertainty"> {
  /** Its light over the first scan's. */
  readonly exposure: number;
}

/** Why a scan takes no part: another size, nothing that both show well, or another picture. */
export type PartRefusal = "size" | "exposure" | "picture";

export interface Merge {
  /**
   * Adds a scan, and keeps it in memory or merges it at once.
   * @param sensitivity its ISO over the first scan's
   */
  add(scan: LinearScan, sensitivity?: number): PartReading | PartRefusal;
  /** The merged scan on the first one's pixels, its signal 1 at the limit of the shortest exposure. */
  finish(): LinearScan;
  /** Light of the merged scan's signals over the first scan's: that of the shortest exposure. */
  readonly unit: number;
  /** Measured, for the first scan's sensitivity; absent before there are two. */
  readonly noise: NoiseModel | undefined;
}

/** Correlation below which two scans show different pictures. */
const MIN_AGREEMENT = 0.5;
/** Pixels that a displacement may be unsure by: a picture without detail tells none, and needs none. */
const MAX_UNCERTAINTY = 0.5;
/** Scans that are merged at a time. */
const AT_ONCE = 3;

interface Held extends LaidScan {
  /** Of its own signals. */
  readonly noise?: NoiseModel;
  readonly sensitivity: number;
}

/** @param first the scan that stays where it is: all places of the result are its own */
export function startMerge(first: LinearScan, checkpoint: () => void = () => undefined): Merge {
  const size = { width: first.width, height: first.height };
  const planes = logPlanes(first);
  let noise: NoiseModel | undefined;
  let unit = 1;
  let held: Held[] = [{ scan: first, displacement: noDisplacement(size), exposure: 1, sensitivity: 1 }];

  function flush(): void {
    const [base, ...others] = held as [Held, ...Held[]];
    if (others.length === 0) return;
    noise ??= measureNoise(base.scan, others);
    unit = Math.min(...held.map(({ exposure }) => exposure));
    const model = noise;
    let top = 0;
    const candidates = held.map((one, i) => {
      const exposed = wellExposed(one.scan);
      const exposure = one.exposure / unit;
      top = Math.max(top, one.exposure === unit ? exposed.highest : 0);
      const own = one.noise ?? scaled(model, one.sensitivity);
      const displacement = i === 0 ? undefined : one.displacement;
      return candidateOf(one.scan, exposed, { exposure, noise: inUnits(own, exposure), displacement });
    });
    const merged = combine(candidates, top, checkpoint);
    const together = sumOf(candidates.map((candidate) => candidate.noise));
    held = [{ ...base, scan: merged, exposure: unit, noise: together }];
  }

  return {
    add(scan, sensitivity = 1) {
      if (scan.width !== size.width || scan.height !== size.height || scan.channels !== first.channels) return "size";
      const found = align(planes, logPlanes(scan), size);
      checkpoint();
      if (!found) return "exposure";
      if (found.agreement < MIN_AGREEMENT) return "picture";
      const known = found.uncertainty <= MAX_UNCERTAINTY;
      const displacement = known ? found.displacement : noDisplacement(size);
      held.push({ scan, displacement, exposure: found.ratio, sensitivity });
      if (held.length === AT_ONCE) flush();
      return { displacement, uncertainty: found.uncertainty, exposure: found.ratio };
    },
    finish() {
      flush();
      return held[0]!.scan;
    },
    get unit() {
      return unit;
    },
    get noise() {
      return noise;
    },
  };
}

const perChannel = (of: (c: 0 | 1 | 2) => number): Rgb => [of(0), of(1), of(2)];

/** Amplified signals have the noise of the light amplified alike, and that of reading squared. */
const scaled = ({ read, photon }: NoiseModel, by: number): NoiseModel => ({
  read: perChannel((c) => read[c] * by * by),
  photon: perChannel((c) => photon[c] * by),
});

const inUnits = (noise: NoiseModel, exposure: number): NoiseModel => ({
  read: perChannel((c) => noise.read[c] / exposure ** 2),
  photon: perChannel((c) => noise.photon[c] / exposure),
});

/** Of a weighted mean, where all of them count. */
const sumOf = (noises: readonly NoiseModel[]): NoiseModel => {
  const together = (key: keyof NoiseModel): Rgb =>
    perChannel((c) => 1 / noises.reduce((sum, noise) => sum + 1 / noise[key][c], 0));
  return { read: together("read"), photon: together("photon") };
};
