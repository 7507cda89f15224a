/** Decodes three scans in three-colour light and composes them to one. Without any one of them there is no picture. */
import { type ExposureSettings, relativeExposure } from "../../../engine/flat-field/exposure.ts";
import { type ChannelPlane, composeChannels, planeAligner, planeOf } from "../../../engine/merge/channels.ts";
import type { LensFaults, LinearScan, ScanInfo } from "../../../engine/types.ts";
import { failureOf, isWorkerLoss, JobError } from "../../../failure.ts";
import { CHANNEL_NUMBERS } from "../../../recipe/resolve/channels.ts";
import type { DecodedScan } from "../../../scans/decode.ts";
import type { ScanWarning } from "../../../scans/errors.ts";
import { checkLock } from "../check-lock.ts";
import { exposedAs, type FrameLight } from "../develop.ts";
import { openScan } from "../open-scan.ts";
import { exposureWarnings } from "../warnings.ts";
import type { FrameMerge, MergedScan } from "./frame-merge.ts";

/** Three scans as one. */
export interface OpenedChannels extends DecodedScan {
  readonly parts: readonly (MergedScan & { readonly exposure: ExposureSettings })[];
}

/**
 * Decodes one scan after the other and keeps the samples of its channel; lays red and blue on green.
 * @param light with the exposures of three blanks the channels' exposures are compared with those; else with green's
 * @param open decodes a scan, its lens's faults corrected
 * @param bare whether they show the bare light, which nothing is laid on each other by, and is not compared
 * @throws the failure of a scan that cannot be read; JobError for scans of other sizes, and of another picture
 */
export async function openChannels(
  { scans }: FrameMerge,
  { references, times }: Pick<FrameLight, "references" | "times">,
  {
    open,
    checkpoint,
    bare = false,
  }: {
    readonly open: (part: MergedScan) => Promise<DecodedScan>;
    readonly checkpoint: () => void;
    readonly bare?: boolean;
  },
): Promise<OpenedChannels> {
  const planes: ChannelPlane[] = [];
  const infos: ScanInfo[] = [];
  const warnings: ScanWarning[] = [];
  let lay: ReturnType<typeof planeAligner> | undefined;
  for (const [i, part] of scans.entries()) {
    const decoded = await open(part).catch((error: unknown) => {
      throw withoutColour(error, part);
    });
    checkpoint();
    warnings.push(...decoded.warnings);
    infos.push(decoded.info);
    const channel = CHANNEL_NUMBERS[i] as 0 | 1 | 2;
    const plane = planeOf(decoded.scan, channel);
    const lies = i > 0 ? layPlane(plane, lay, scans, part) : {};
    if (i === 0 && !bare) lay = planeAligner(plane);
    if (i > 0 && bare) checkSize(plane, planes[0]!.plane, scans, part);
    checkpoint();
    planes.push({ plane, channel, gain: 1, ...lies });
  }
  const exposures = infos.map(({ shutter, iso, aperture }): ExposureSettings => ({ shutter, iso, aperture }));
  const compared = exposures.map((own, i) =>
    relativeExposure(exposedAs(own, times), exposedAs(references ? references[i]! : exposures[0]!, times)),
  );
  // Green's own comparison is made where it is drawn.
  for (const one of compared.slice(1))
    for (const message of references ? exposureWarnings(one) : []) warnings.push({ code: "exposure", message });
  const gains = bare ? [1, 1, 1] : compared.map(({ ratio }) => compared[0]!.ratio / ratio);
  const scan = composeChannels(
    planes.map((plane, i) => ({ ...plane, gain: gains[i]! })),
    checkpoint,
  );
  const unique = [...new Map(warnings.map((warning) => [warning.message, warning])).values()];
  return { scan, info: infos[0]!, warnings: unique, parts: scans.map((s, i) => ({ ...s, exposure: exposures[i]! })) };
}

function layPlane(
  plane: LinearScan,
  lay: ReturnType<typeof planeAligner> | undefined,
  [green]: readonly MergedScan[],
  part: MergedScan,
): Pick<ChannelPlane, "displacement"> {
  const reading = lay?.(plane);
  if (reading === undefined) return {};
  if (typeof reading === "string") throw mismatch(reading, green!, part);
  return { displacement: reading.displacement };
}

function checkSize(plane: LinearScan, first: LinearScan, [green]: readonly MergedScan[], part: MergedScan): void {
  if (plane.width !== first.width || plane.height !== first.height) throw mismatch("size", green!, part);
}

function mismatch(why: "size" | "picture", green: MergedScan, { name, path }: MergedScan): JobError {
  const message =
    why === "size"
      ? `${name} has another size than ${green.name}: the three scans of three-colour light are of one size.`
      : `${name} does not show the picture of ${green.name}: the three scans of three-colour light are of one picture.`;
  return new JobError({ code: "channels", message, file: path, remedy: "Check the names under channels." });
}

/** The failure of one scan ends the frame; what happened stays, and why nothing is made of the other two is added. */
function withoutColour(error: unknown, { path }: MergedScan): unknown {
  const failure = failureOf(error);
  if (failure.code === "cancelled" || failure.code === "fingerprint" || isWorkerLoss(error)) return error;
  const message = `${failure.message} Two colours are no picture.`;
  return new JobError({ ...failure, message, file: failure.file ?? path });
}

/** Three scans of the bare light as one, at half size, in units of their own exposures. */
export async function openBlanks(merge: FrameMerge, lens: LensFaults | undefined): Promise<OpenedBlanks> {
  const open = async ({ path, locked }: MergedScan): Promise<DecodedScan> => {
    await checkLock(path, locked);
    return openScan(path, lens, { half: true });
  };
  const { parts, ...opened } = await openChannels(merge, {}, { open, checkpoint: () => undefined, bare: true });
  return { ...opened, exposures: parts.map(({ exposure }) => exposure) };
}

export interface OpenedBlanks extends DecodedScan {
  /** Green, red, blue. */
  readonly exposures: readonly ExposureSettings[];
}
