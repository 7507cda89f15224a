/** A frame's scan, ready to be drawn: one file, or several joined. */
import { composeJoin, type JoinPart } from "../engine/join/compose.ts";
import { heal } from "../engine/heal.ts";
import { channelWeights } from "../engine/light.ts";
import type { LinearScan, ScanInfo } from "../engine/types.ts";
import { decodeScan } from "../scans/decode.ts";
import type { ScanWarning } from "../scans/errors.ts";
import type { FullSize } from "../scans/raw/to-scan.ts";
import { type FrameLight, type FrameSetup, lightSetup, prepareScan } from "./develop.ts";
import type { FrameJoin } from "./frame-join.ts";
import { checkLock } from "./jobs/check-lock.ts";

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
  { half = false, checkpoint, ...wanted }: FullSize & { half?: boolean; checkpoint: () => void },
): Promise<OpenedFrame> {
  const { join, light } = setup;
  if (!join) {
    const { scan, info, warnings } = await decodeScan(path, { half, ...wanted });
    checkpoint();
    prepareScan(scan, setup);
    return { scan, info, warnings, setup };
  }
  const joined = await openJoin(join, light, { half, checkpoint });
  heal(joined.scan, setup.spots);
  return { ...joined, setup: { ...setup, light: joined.light } };
}

/** Decodes the scans of a join and lays them together, dirt healed on each. */
export async function openJoin(
  join: FrameJoin,
  light: FrameLight,
  { half = false, checkpoint }: { half?: boolean; checkpoint: () => void },
): Promise<Omit<OpenedFrame, "setup"> & { readonly light: FrameLight }> {
  const parts: JoinPart[] = [];
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
  const weights = light.field && channelWeights(light.field);
  const flat = { flare: [0, 0, 0], ...(weights ? { weights } : {}) } as const;
  return { scan, info: first as ScanInfo, warnings, light: flat };
}
