/** A frame's scan, ready to be drawn: one file, or several joined. */
import { composeJoin } from "../../engine/image/join/compose.ts";
import { type LaidJoin, layingOrder, startJoin } from "../../engine/image/join/lay.ts";
import type { JoinPart } from "../../engine/image/join/moved-rows.ts";
import { type JoinFrame, joinFrame, type JoinPlace, type PlacedSize } from "../../engine/image/join/place.ts";
import { heal } from "../../engine/image/heal.ts";
import { channelWeights } from "../../engine/flat-field/light-field.ts";
import type { LinearScan, ScanInfo } from "../../engine/types.ts";
import type { DecodedScan } from "../../scans/decode.ts";
import type { ScanWarning } from "../../scans/errors.ts";
import type { FullSize } from "../../scans/raw/to-scan.ts";
import { type FrameLight, type FrameSetup, lightSetup, prepareScan } from "./develop.ts";
import type { FrameJoin } from "./join/frame-join.ts";
import { openMerged } from "./merge/open-merged.ts";
import { corrected, openScan } from "./open-scan.ts";
import { sharedDecoder } from "./shared-scan.ts";
import { checkLock } from "./check-lock.ts";
import { exposureWarnings } from "./warnings.ts";

export interface OpenedFrame {
  readonly scan: LinearScan;
  readonly info: ScanInfo;
  readonly warnings: readonly ScanWarning[];
  /** The setup to draw it with: a joined scan has its light divided out already. */
  readonly setup: FrameSetup;
}

/** How a frame's scan is opened. */
export interface FrameOpening extends FullSize {
  readonly half?: boolean;
  /** Where the scan shows other frames, too: whether it is to be kept for them. */
  readonly keepScan?: boolean;
  readonly checkpoint: () => void;
}

/** Decodes a frame's scan, or its scans and joins or merges them, and heals what lies on it. */
export async function openFrame(
  path: string,
  setup: FrameSetup,
  { half = false, keepScan, checkpoint, ...wanted }: FrameOpening,
): Promise<OpenedFrame> {
  const { join, merge, light } = setup;
  if (!join) {
    const { scan, info, warnings } = merge
      ? await openMerged(merge, light, { half, checkpoint })
      : await openScan(path, light.lens, { half, ...wanted }, sharedDecoder(keepScan));
    checkpoint();
    prepareScan(scan, setup);
    return { scan, info, warnings, setup };
  }
  const { scan, info, warnings, light: flat } = await openJoin(join, light, { half, checkpoint });
  heal(scan, setup.spots);
  return { scan, info, warnings, setup: { ...setup, light: flat } };
}

/** How the scans of a join are read. */
export interface JoinReading {
  readonly half?: boolean;
  /** Reads scans made smaller, in place of decoding them: how many times shorter their sides are, and by what. */
  readonly reduced?: { readonly times: number; read(path: string): Promise<DecodedScan> };
  readonly checkpoint: () => void;
}

/** Several scans laid together. */
export interface OpenedJoin extends Omit<OpenedFrame, "setup"> {
  /** Light and flare are divided out already; what is left of them are the channels' weights. */
  readonly light: FrameLight;
  /** Of the joined scan at full size. */
  readonly full: JoinFrame;
  /** Where the scan's pixels lie in that, in fractions of it: made smaller, they need not begin where it does. */
  readonly part: JoinFrame;
}

/**
 * Decodes the scans of a join, one after the other, and lays them together, sensor dust healed on each. Where the recipe
 * states their exposures each scan is let go before the next is decoded.
 */
export async function openJoin(
  { scans, sensorDust }: FrameJoin,
  light: FrameLight,
  { half = false, reduced, checkpoint }: JoinReading,
): Promise<OpenedJoin> {
  const warnings: ScanWarning[] = [];
  const infos: ScanInfo[] = [];
  const times = reduced?.times ?? (half ? 2 : 1);
  const isMeasured = scans.every(({ place }) => place.length > 3);
  const parts: JoinPart[] = [];
  let laid: LaidJoin | undefined;
  const sizes: PlacedSize[] = [];
  const order = isMeasured ? layingOrder(scans.map(({ place }) => place)) : scans.map((_, i) => i);
  for (const i of order) {
    const { path, locked, place } = scans[i]!;
    await checkLock(path, locked);
    const { scan, info, ...decoded } = await (reduced
      ? reduced.read(path).then((read) => corrected(read, light.lens))
      : openScan(path, light.lens, { half }));
    checkpoint();
    heal(scan, sensorDust);
    infos[i] = info;
    const setup = lightSetup(light, info);
    warnings.push(...decoded.warnings);
    warnings.push(...exposureWarnings(setup).map((message) => ({ code: "exposure", message }) as const));
    const part = { scan, light: setup, place: smaller(place, times) };
    const { width, height } = scan;
    sizes[i] = { scan: { width, height }, place: part.place };
    if (!isMeasured) {
      parts.push(part);
      continue;
    }
    laid ??= startJoin(
      joinFrame(scans.map((other) => ({ scan: { width, height }, place: smaller(other.place, times) }))),
      times,
      checkpoint,
    );
    laid.add(part);
  }
  const scan = laid ? laid.finish() : composeJoin(parts);
  checkpoint();
  const weights = light.field && channelWeights(light.field);
  const flat = { flare: [0, 0, 0], ...(weights ? { weights } : {}) } as const;
  const full = joinFrame(scans.map(({ place }, i) => ({ scan: infos[i]!, place })));
  const small = joinFrame(sizes);
  const part = {
    left: (small.left * times - full.left) / full.width,
    top: (small.top * times - full.top) / full.height,
    width: (small.width * times) / full.width,
    height: (small.height * times) / full.height,
  };
  return { scan, info: infos[0]!, warnings, light: flat, full, part };
}

const smaller = ([x, y, ...rest]: JoinPlace, times: number): JoinPlace => [x / times, y / times, ...rest];
