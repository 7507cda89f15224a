/** What is written into a rendered picture's EXIF, XMP and IPTC. */
import { formatText } from "../../engine/film/formats.ts";
import type { ResolvedFrame, ResolvedRoll } from "../../recipe/resolve/resolve.ts";
import type { PictureMetadata } from "../../scans/output/encode.ts";
import { VERSION } from "../files/version.ts";

export const SOFTWARE = `Rollbook ${VERSION}`;

/** What a picture says of itself. `recipe` is the hash of what was asked for. */
export function pictureMetadata(roll: ResolvedRoll, frame: ResolvedFrame, recipe: string): PictureMetadata {
  const { camera, lens, date, time, rated, place, coordinates, focal, aperture, shutter, filter, developer } =
    frame.exposed;
  const { caption, keywords, creator, copyright } = frame.iptc;
  return {
    title: frame.title,
    description: caption ?? frame.note,
    rating: xmpRating(frame),
    roll: roll.title,
    frame: frame.id,
    camera,
    lens,
    date,
    time,
    rated,
    place,
    coordinates,
    focal,
    aperture,
    shutter,
    filter,
    developer,
    keywords,
    creator,
    copyright,
    stock: roll.stock?.title,
    format: roll.format && formatText(roll.format),
    scans: frame.scans.map((scan) => scan.name),
    recipe,
    software: SOFTWARE,
  };
}

/**
 * The value of xmp:Rating: −1 for a rejected frame, else its rank, else 0. XMP Specification Part 1 (ISO 16684-1), 8.4: the
 * value is −1 or within [0 … 5], where −1 means rejected and 0 unrated.
 */
export const xmpRating = ({ choice, rank }: Pick<ResolvedFrame, "choice" | "rank">): number =>
  choice === "reject" ? -1 : (rank ?? 0);
