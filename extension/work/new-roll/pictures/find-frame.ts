/** Job: finds the frame's rectangle on one scan of a new roll, and reads its edge codes. */
import { sampleOf } from "../../../engine/auto/balance.ts";
import { type FoundOnScan, findOnScan } from "../../../engine/detect/index.ts";
import type { RollPlace } from "../../../engine/detect/roll-place.ts";
import { downsample, type DownsampledScan } from "../../../engine/detect/downsampled-scan.ts";
import { edgeBands } from "../../../engine/detect/perforations/edge-bands.ts";
import { densityMapOf } from "../../../engine/detect/overlap.ts";
import { grainPrint } from "../../../engine/detect/same-film.ts";
import { filmPlane } from "../../../engine/flat-field/film-plane.ts";
import type { LightSetup } from "../../../engine/flat-field/transmittance.ts";
import type { Area, Film, LinearScan, Rgb } from "../../../engine/types.ts";
import { type EdgeCode, readEdgeCodes } from "../../../scans/edge-codes/read-edge-codes.ts";
import { takeOrDecode } from "../../frame/kept-scans.ts";
import { type FrameLight, lightSetup } from "../../frame/develop.ts";
import type { FrameJoin } from "../../frame/join/frame-join.ts";
import type { FrameMerge } from "../../frame/merge/frame-merge.ts";
import { openMerged } from "../../frame/merge/open-merged.ts";
import { openJoin } from "../../frame/open-frame.ts";
import { corrected, openScan } from "../../frame/open-scan.ts";
import { exposureWarnings } from "../../frame/warnings.ts";
import { cutOffWarnings, findParts } from "./find-parts.ts";
import type { JobContext } from "../../pool/job-context.ts";
import type { FoundPicture } from "./found-picture.ts";

export interface FindFrame {
  readonly path: string;
  /** Scans that are laid together first, where the picture is on several; `path` is the first of them. */
  readonly join?: FrameJoin;
  /** Scans that are merged first, where the picture was scanned several times. */
  readonly merge?: FrameMerge;
  readonly light: FrameLight;
  /** Longer over shorter side of the format. */
  readonly ratio?: number;
  /** What is known from the roll's other scans. */
  readonly known?: { readonly base?: Rgb; readonly flare?: Rgb; readonly place?: RollPlace };
  readonly film?: Film;
  /** No rectangle is looked for: what was found before is not to be trusted. */
  readonly whole?: boolean;
  /** The picture's rectangle, where a recipe keeps it: none is reported. */
  readonly area?: Area;
}

const MIN_WIDTH = 1200;
const MIN_STRIP_WIDTH = 2400;
/** Where no picture was found: the scan but for its border, where margins and holders are. */
const WHOLE: Area = { left: 0.08, top: 0.08, width: 0.84, height: 0.84, tilt: 0 };

/** Finds flare, base and the picture on one scan, or on several joined, and keeps of it what balancing the roll needs. */
export async function findFrame(request: FindFrame, context: JobContext): Promise<FoundPicture> {
  const { ratio, known, film } = request;
  const half = await open(request, true, context);
  // Edges of a small scan need every pixel.
  let opened = half.scan.width < MIN_WIDTH ? await open(request, false, context) : half;
  const several = !request.join && !request.merge && !request.whole && !request.area;
  const find = (): FoundOnScan => findOnScan(opened.scan, opened.setup, { ratio, film, several, ...known });
  let onScan = find();
  // Each of several pictures has a part of the pixels.
  if (onScan.strips && opened === half && half.scan.width < MIN_STRIP_WIDTH) {
    opened = await open(request, false, context);
    onScan = find();
  }
  const { scan, setup, warnings } = opened;
  const { downsampled, flare, base, frame, strips } = onScan;
  const area = request.area ?? frame?.area;
  // Grain is compared at half size, whatever the size of the scan.
  const plane = request.join ? undefined : filmPlane(half.scan, half.setup);
  const grain = plane && !strips ? grainPrint(plane, area ?? WHOLE) : undefined;
  const baseDensity = base?.density ?? known?.base;
  const parts =
    plane && strips && (await findParts(onScan, strips, plane, finelyRead(scan, { ...setup, flare }, baseDensity)));
  return {
    ...(flare ? { flare } : {}),
    ...(base ? { base } : {}),
    ...(frame && !request.whole && !request.area ? { frame } : {}),
    sample: sampleOf(downsampled, (!request.whole && area) || WHOLE),
    map: densityMapOf(downsampled),
    codes: parts ? [] : await edgeCodesOn(downsampled, area, baseDensity),
    ...(grain ? { grain } : {}),
    ...(parts ? { parts } : {}),
    warnings: [
      ...warnings.map((w) => w.message),
      ...exposureWarnings(setup),
      ...(strips ? cutOffWarnings(strips) : []),
    ],
  };
}

/** Pixels of a scan's longer side at which the codes beside one of several pictures can be read. */
const CODE_WIDTH = 3200;

/** Reads the codes around a rectangle on a finer copy of the scan. */
function finelyRead(scan: LinearScan, light: LightSetup, base: Rgb | undefined) {
  const fine = downsample(scan, light, CODE_WIDTH);
  return (around: Area): Promise<EdgeCode[]> => edgeCodesOn(fine, around, base);
}

/** Edge codes around the picture; a reader that fails is no reason to lose the frame. */
export async function edgeCodesOn(
  downsampled: DownsampledScan,
  area: Area | undefined,
  base: Rgb | undefined,
): Promise<EdgeCode[]> {
  const codes: EdgeCode[] = [];
  for (const band of edgeBands(downsampled, area, base)) {
    const found = await readEdgeCodes(band).catch(() => []);
    const at = ([x, y]: EdgeCode["centre"]): EdgeCode["centre"] => [
      (band.left + x) / downsampled.width,
      (band.top + y) / downsampled.height,
    ];
    codes.push(
      ...found.map((code) => ({ ...code, centre: at(code.centre), pixelsPerMm: code.pixelsPerMm / downsampled.width })),
    );
  }
  return codes;
}

async function open({ path, join, merge, light }: FindFrame, half: boolean, context: JobContext) {
  const checkpoint = (): void => context.checkpoint();
  if (merge) {
    const { scan, info, warnings } = await openMerged(merge, light, { half, checkpoint });
    return { scan, setup: lightSetup(light, info), warnings };
  }
  if (!join) {
    const { scan, info, warnings } = half
      ? corrected(await takeOrDecode(path), light.lens)
      : await openScan(path, light.lens);
    return { scan, setup: lightSetup(light, info), warnings };
  }
  // Light and flare are divided out of what is joined.
  const { scan, warnings } = await openJoin(join, light, { half, checkpoint });
  return { scan, setup: { ratio: 1, unknown: [] }, warnings };
}
