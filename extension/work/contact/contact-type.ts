/** The file types of contact sheets. */
import { extname } from "node:path";

/** How a contact sheet is written, by the ending of its file. */
export const CONTACT_TYPES = {
  ".jpg": "jpeg",
  ".jpeg": "jpeg",
  ".png": "png",
  ".tif": "tiff",
  ".tiff": "tiff",
  ".webp": "webp",
  ".pdf": "pdf",
} as const;

/** The type that a file's name asks for; undefined for any other ending. */
export function contactType(file: string): (typeof CONTACT_TYPES)[keyof typeof CONTACT_TYPES] | undefined {
  const ending = extname(file).toLowerCase();
  return Object.hasOwn(CONTACT_TYPES, ending) ? CONTACT_TYPES[ending as keyof typeof CONTACT_TYPES] : undefined;
}
