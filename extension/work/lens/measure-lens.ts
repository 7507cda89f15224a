/** Measures the faults of the lens that a roll was photographed with, on the roll's own scans. */
import { errorText } from "../../scans/files/system-errors.ts";
import { type Distortion, distortionTerms, fitDistortion } from "../../engine/lens/distortion.ts";
import { falloffTerms, type FalloffFit, fitFalloff } from "../../engine/lens/fit-falloff.ts";
import { fitLateralColour, lateralFaults } from "../../engine/lens/lateral-colour.ts";
import type { LensFaults } from "../../engine/types.ts";
import type { ValueEdit } from "../../recipe/edit/edit.ts";
import type { ResolvedFrame, ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import type { Workspace } from "../files/workspace.ts";
import { lightTable } from "../frame/frame-setup.ts";
import { eachLimited } from "../pool/each-limited.ts";
import type { Pool } from "../pool/pool.ts";
import { readLensJob } from "./jobs.ts";
import type { LensReading } from "./read-lens.ts";

/** A fault in the corner of the scan, in pixels of the full scan, and its standard error. */
export interface CornerShift {
  readonly shift: number;
  readonly error: number;
  /** Patches of all scans that it was measured on. */
  readonly patches: number;
}

export interface LensReport {
  /** Scans that were measured. */
  readonly scans: readonly string[];
  readonly failures: readonly { readonly frame: string; readonly message: string }[];
  /** Absent where the scans show too little that is common to the three colours. */
  readonly lateral?: {
    readonly red: CornerShift;
    readonly blue: CornerShift;
    /** As the recipe states it. */
    readonly value: ReturnType<typeof lateralFaults>;
    /** Whether both shifts are known to a tenth of a pixel or better. */
    readonly sure: boolean;
    /** Whether it is large enough to be corrected, or the recipe corrects it already. */
    readonly needed: boolean;
  };
  /** Absent where too little of the pictures' edges is in view. */
  readonly distortion?: Pick<Distortion, "corner" | "error" | "places" | "edges"> & {
    readonly value: readonly number[];
    /** Whether the corner's is known to 0.05 % of the radius or better. */
    readonly sure: boolean;
    /** Whether it is large enough to be corrected, or the recipe corrects it already. */
    readonly needed: boolean;
  };
  /** Absent where a blank takes it out, and where too little clear film is in view. */
  readonly falloff?: Pick<FalloffFit, "span" | "error" | "cells" | "scans"> & {
    readonly value: ReturnType<typeof falloffTerms>;
    /** Whether it is known to 0.05 EV or better all over the scan. */
    readonly sure: boolean;
    readonly needed: boolean;
  };
  /** Whether a blank takes out the falloff, so that it was not measured. */
  readonly blank: boolean;
  /** Frames whose join was measured with another distortion. */
  readonly joins: readonly string[];
}

export interface LensHooks {
  readonly signal?: AbortSignal;
  readonly onProgress?: (done: number, total: number, frame: string) => void;
}

/** More scans than these make the measurement no better than the model is. */
const MAX_SCANS = 10;
/** Standard error of a corner's shift that a measurement may have, pixels. */
const SURE = 0.1;
/** Standard error of the distortion in the corner that a measurement may have, part of the radius. */
const SURE_DISTORTION = 0.0005;
/** Standard error of the falloff that a measurement may have, and what is not worth correcting, EV over the scan. */
const [SURE_FALLOFF, MIN_FALLOFF] = [0.05, 0.1];
/** What is smaller in the corner is not worth the time that correcting takes: pixels, and parts of the radius. */
const [MIN_SHIFT, MIN_DISTORTION] = [0.1, 0.001];

/**
 * Measures the lens on up to ten scans, none of them in three-colour light, of which each shows one colour, evenly spread over the roll, all of the camera's size that most have. A scan that
 * cannot be read is reported and the others go on. What the recipe corrects already makes no difference.
 */
export async function measureLens(
  roll: ResolvedRoll,
  workspace: Workspace,
  pool: Pool,
  { signal, onProgress }: LensHooks = {},
): Promise<LensReport> {
  const lights = lightTable(roll, workspace, pool, signal);
  const orders = [
    ...evenlySpread(roll.frames.filter(({ skip, channels }) => !skip && !channels).flatMap(scansOf), MAX_SCANS),
    ...leaderOf(roll),
  ];
  const failures: { frame: string; message: string }[] = [];
  let done = 0;
  const made = await eachLimited(orders, pool.workers + 1, async ({ frame, scan, index, isLeader }) => {
    try {
      const { lens: _, falloff: __, ...uncorrected } = frame.light;
      const { light } = await lights.of({ light: uncorrected, base: frame.base });
      const joined = frame.scans.length > 1 && !frame.merged ? { joined: { places: frame.join, index } } : {};
      const path = workspace.absolute(scan.path);
      const request = { path, area: frame.area, film: roll.film, light, ...joined, ...clearOn(roll, frame, scan.path) };
      const reading = await pool.run(readLensJob, request, { signal });
      return { name: scan.name, isLeader, reading };
    } catch (error) {
      if (signal?.aborted) throw error;
      failures.push({ frame: frame.id, message: errorText(error) });
      return undefined;
    } finally {
      onProgress?.(++done, orders.length, frame.id);
    }
  });
  const read = ofOneSize(made.filter((one) => one !== undefined));
  const readings = read.filter(({ isLeader }) => !isLeader).map(({ reading }) => reading);
  const { lens, falloff, blank } = roll.shared.light;
  const distortion = distortionOf(readings, lens);
  return {
    scans: read.map(({ name }) => name),
    failures,
    ...lateralOf(readings, lens),
    ...distortion,
    ...falloffOf(
      read.map(({ reading }) => reading),
      falloff !== undefined,
    ),
    blank: blank !== undefined,
    joins: staleJoins(roll, distortion),
  };
}

const scansOf = (frame: ResolvedFrame) => frame.scans.map((scan, index) => ({ frame, scan, index, isLeader: false }));

/** The scan that the base was read from, where no frame lies on it: a leader is clear film all over. */
function leaderOf({ frames, shared }: ResolvedRoll) {
  const leader = shared.base.read?.scan;
  const [frame] = frames;
  if (!leader || !frame || shared.light.blank || frames.some((f) => f.scans.some(({ path }) => path === leader.path)))
    return [];
  return [{ frame, scan: leader, index: 0, isLeader: true }];
}

/** What a scan's clear film is told by; nothing for slides, whose clear film is black, and for parts of a joined frame. */
function clearOn({ film, frames }: ResolvedRoll, { light, look }: ResolvedFrame, path: string) {
  if (light.blank || film === "slide") return {};
  const on = frames.filter(({ scans }) => scans.some((scan) => scan.path === path));
  if (on.some(({ scans, merged }) => scans.length > 1 && !merged)) return {};
  return { clear: { base: look.base, pictures: on.map(({ area }) => area) } };
}

function falloffOf(readings: readonly LensReading[], isKnown: boolean): Pick<LensReport, "falloff"> {
  const [first] = readings;
  const fit =
    first &&
    fitFalloff(
      readings.map(({ cells }) => cells),
      first.width / first.height,
    );
  if (!fit) return {};
  const { span, error, cells, scans } = fit;
  const sure = fit.covered && error <= SURE_FALLOFF;
  const needed = isKnown || span >= Math.max(MIN_FALLOFF, 3 * error);
  return { falloff: { span, error, cells, scans, value: falloffTerms(fit), sure, needed } };
}

function evenlySpread<T>(all: readonly T[], most: number): readonly T[] {
  if (all.length <= most) return all;
  return Array.from({ length: most }, (_, i) => all[Math.floor(((i + 0.5) * all.length) / most)]!);
}

/** The scans of the size that most have: another size is another camera or crop. */
function ofOneSize<T extends { readonly reading: LensReading }>(scans: readonly T[]): readonly T[] {
  const groups = new Map<string, T[]>();
  for (const scan of scans) {
    const size = `${scan.reading.width} ${scan.reading.height}`;
    groups.set(size, [...(groups.get(size) ?? []), scan]);
  }
  return [...groups.values()].reduce((most, group) => (group.length > most.length ? group : most), []);
}

function lateralOf(readings: readonly LensReading[], known: LensFaults | undefined): Pick<LensReport, "lateral"> {
  const fit = fitLateralColour(readings.map(({ lateral }) => lateral));
  const [first] = readings;
  if (!fit || !first) return {};
  const unit = Math.hypot(first.width, first.height) / 2;
  const [red, blue] = [fit.red, fit.blue].map(({ corner, error, patches }) => ({
    shift: corner * unit,
    error: error * unit,
    patches,
  })) as [CornerShift, CornerShift];
  const sure = Math.max(red.error, blue.error) <= SURE;
  const needed = known?.lateral !== undefined || Math.max(Math.abs(red.shift), Math.abs(blue.shift)) >= MIN_SHIFT;
  return { lateral: { red, blue, value: lateralFaults(fit), sure, needed } };
}

function distortionOf(readings: readonly LensReading[], known: LensFaults | undefined): Pick<LensReport, "distortion"> {
  const fit = fitDistortion(readings.map(({ edges }) => edges));
  if (!fit) return {};
  const { corner, error, places, edges } = fit;
  const sure = error <= SURE_DISTORTION;
  const needed = known?.distortion !== undefined || Math.abs(corner) >= MIN_DISTORTION;
  return { distortion: { corner, error, places, edges, value: distortionTerms(fit), sure, needed } };
}

function staleJoins({ frames, shared }: ResolvedRoll, { distortion }: Pick<LensReport, "distortion">): string[] {
  if (!distortion?.sure || !distortion.needed || String(distortion.value) === String(shared.light.lens?.distortion))
    return [];
  return frames.filter(({ join }) => join !== undefined).map(({ id }) => id);
}

/** What writes the measured faults into the recipe: only what was measured surely. */
export const lensEdits = ({ lateral, distortion, falloff }: Measured): ValueEdit[] => [
  ...(lateral?.sure && lateral.needed ? [{ path: ["light", "lens", "lateral"], value: lateral.value }] : []),
  ...(distortion?.sure && distortion.needed
    ? [{ path: ["light", "lens", "distortion"], value: distortion.value }]
    : []),
  ...(falloff?.sure && falloff.needed ? [{ path: ["light", "lens", "falloff"], value: falloff.value }] : []),
];

type Measured = Pick<LensReport, "lateral" | "distortion" | "falloff">;
