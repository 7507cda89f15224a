/** The job that reads a lens's faults off one scan. */
import { filmPlane, pixelBox } from "../../engine/flat-field/film-plane.ts";
import { type BaseCell, readBaseCells } from "../../engine/lens/base-cells.ts";
import { type LateralReading, readLateralColour } from "../../engine/lens/lateral-colour.ts";
import { joinFrame, type JoinPlace, onFirst } from "../../engine/image/join/place.ts";
import { type EdgePlaces, readEdges } from "../../engine/lens/straight-edges.ts";
import type { Area, Film, Rgb } from "../../engine/types.ts";
import { decodeScan } from "../../scans/decode.ts";
import { type FrameLight, lightSetup } from "../frame/develop.ts";
import type { JobContext } from "../pool/job-context.ts";

export interface ReadLens {
  readonly path: string;
  /** The picture, in fractions of the scan, or of the frame that it is joined to. */
  readonly area: Area;
  readonly film: Film;
  /** Where the scans of a joined frame lie, and which of them this is; absent before that was measured. */
  readonly joined?: { readonly places?: readonly JoinPlace[]; readonly index: number };
  readonly light: FrameLight;
  /** For the falloff: the base, and the areas of all frames on the scan; absent where a blank takes it out. */
  readonly clear?: { readonly base: Rgb; readonly pictures: readonly Area[] };
}

export interface LensReading {
  /** Full size of the scan, in pixels. */
  readonly width: number;
  readonly height: number;
  readonly lateral: LateralReading;
  /** The picture's edges that are in view. */
  readonly edges: readonly EdgePlaces[];
  /** Clear film that is in view. */
  readonly cells: readonly BaseCell[];
}

/** Reads what one scan shows of its lens, as it was photographed: nothing is corrected. */
export async function readLens(
  { path, area, film, joined, light, clear }: ReadLens,
  context: JobContext,
): Promise<LensReading> {
  const { scan, info } = await decodeScan(path, { half: true });
  context.checkpoint();
  const plane = filmPlane(scan, lightSetup(light, info));
  const { left, top, width, height } = joined ? PART : area;
  const box = pixelBox(plane, left, top, left + width, top + height);
  const cells = clear ? readBaseCells(plane, clear.pictures, clear.base) : [];
  const lateral = scan.channels === 3 ? readLateralColour(plane, box) : { red: [], blue: [] };
  const picture = joined ? joined.places && areaOnPart(area, joined.places, joined.index, info) : area;
  const edges = picture ? readEdges(plane, picture, film) : [];
  return { width: info.width, height: info.height, lateral, edges, cells };
}

/** The film of a frame that is joined from several scans fills each of them: all but their borders. */
const PART: Area = { left: 0.04, top: 0.04, width: 0.92, height: 0.92, tilt: 0 };

/** The area of a joined frame in fractions of one of its scans, all of which have one size; it reaches beyond it. */
function areaOnPart(
  area: Area,
  places: readonly JoinPlace[],
  index: number,
  { width, height }: { readonly width: number; readonly height: number },
): Area {
  const frame = joinFrame(places.map((place) => ({ scan: { width, height }, place })));
  const [px, py, degrees] = places[index]!;
  const middle = [
    frame.left + (area.left + area.width / 2) * frame.width,
    frame.top + (area.top + area.height / 2) * frame.height,
  ];
  const [x, y] = onFirst(middle[0]! - px, middle[1]! - py, 0, 0, (-degrees * Math.PI) / 180);
  const [wide, high] = [(area.width * frame.width) / width, (area.height * frame.height) / height];
  return {
    left: x / width - wide / 2,
    top: y / height - high / 2,
    width: wide,
    height: high,
    tilt: area.tilt - degrees,
  };
}
