/** A frame's scan, ready to be drawn: one file, or several joined. */
import { composeJoin } from "../engine/join/compose.ts";
import type { JoinPlace } from "../engine/join/measure.ts";
import { heal, type Spot } from "../engine/heal.ts";
import { channelWeights } from "../engine/light.ts";
import type { LinearScan, ScanInfo } from "../engine/types.ts";
import type { ResolvedFrame, ResolvedRoll } from "../recipe/resolve.ts";
import { decodeScan } from "../scans/decode.ts";
import type { ScanWarning } from "../scans/errors.ts";
import type { Fingerprint } from "../scans/fingerprint.ts";
import { type FrameSetup, lightSetup, prepareScan } from "./develop.ts";
import { JobError } from "./job-error.ts";
import { checkLock } from "./jobs/check-lock.ts";
import type { Workspace } from "./workspace.ts";

/** One scan of several that make up a frame. Plain data: it crosses to the workers. */
export interface JoinedScan {
  /** Absolute. */
  readonly path: string;
  /** In pixels of the full scan. */
  readonly place: JoinPlace;
  readonly locked?: Fingerprint;
}

export interface FrameJoin {
  readonly scans: readonly JoinedScan[];
  /** Dirt, which lies at the same place in each scan; the setup's own spots are those of the joined picture. */
  readonly dirt: readonly Spot[];
}

/**
 * What to join a frame from; nothing for a frame of one scan.
 * @throws JobError when it has not been measured how the scans lie to one another
 */
export function joinOf(
  roll: Pick<ResolvedRoll, "fingerprints">,
  frame: ResolvedFrame,
  workspace: Workspace,
): Pick<FrameSetup, "join" | "spots"> | undefined {
  if (frame.scans.length < 2) return undefined;
  const { join } = frame;
  if (!join)
    throw new JobError({
      name: "JobError",
      code: "join",
      message: `Frame ${frame.id} is made of ${frame.scans.length} scans, and the recipe does not say how they lie to one another.`,
      cure: 'Measure it with "rollbook join ROLL --write".',
    });
  const scans = frame.scans.map(({ name, path }, i) => ({
    path: workspace.absolute(path),
    place: join[i],
    locked: roll.fingerprints[name],
  }));
  return { join: { scans, dirt: frame.light.spots }, spots: frame.spots };
}

export interface OpenedFrame {
  readonly scan: LinearScan;
  readonly info: ScanInfo;
  readonly warnings: readonly ScanWarning[];
  /** The setup to draw it with: a joined scan has its light divided out already. */
  readonly setup: FrameSetup;
}

/** Decodes a frame's scan, or its scans and joins them, and heals what lies on it. */
export async function openFrame(
  path: string,
  setup: FrameSetup,
  { half = false, checkpoint }: { half?: boolean; checkpoint: () => void },
): Promise<OpenedFrame> {
  const { join, light } = setup;
  if (!join) {
    const { scan, info, warnings } = await decodeScan(path, { half });
    checkpoint();
    prepareScan(scan, setup);
    return { scan, info, warnings, setup };
  }
  const parts: Parameters<typeof composeJoin>[0][number][] = [];
  const warnings: ScanWarning[] = [];
  let first: ScanInfo | undefined;
  for (const part of join.scans) {
    await checkLock(part.path, part.locked);
    const decoded = await decodeScan(part.path, { half });
    checkpoint();
    heal(decoded.scan, join.dirt);
    first ??= decoded.info;
    warnings.push(...decoded.warnings);
    const [x, y, angle] = part.place;
    const place = half ? ([x / 2, y / 2, angle] as const) : part.place;
    parts.push({ scan: decoded.scan, light: lightSetup(light, decoded.info), place });
  }
  const scan = composeJoin(parts);
  checkpoint();
  heal(scan, setup.spots);
  const weights = light.field && channelWeights(light.field);
  const flat = { flare: [0, 0, 0], ...(weights ? { weights } : {}) } as const;
  return { scan, info: first as ScanInfo, warnings, setup: { ...setup, light: flat } };
}
