/** What of a frame's record a contact sheet may show below its picture, and how it is put into words. */
import type { ResolvedFrame } from "../../recipe/resolve/resolve.ts";

type Field = (frame: ResolvedFrame) => string | undefined;

/** The fields, by the keys that recipes and tables of shooting notes use. */
const FIELDS = {
  note: ({ note }) => note,
  caption: ({ iptc }) => iptc.caption,
  date: ({ exposed }) => exposed.date,
  time: ({ exposed }) => exposed.time,
  place: ({ exposed }) => exposed.place,
  coordinates: ({ exposed }) => exposed.coordinates?.map((v) => v.toFixed(4)).join(", "),
  camera: ({ exposed }) => exposed.camera,
  lens: ({ exposed }) => exposed.lens,
  focal: ({ exposed: { focal } }) => (focal === undefined ? undefined : `${focal} mm`),
  aperture: ({ exposed: { aperture } }) => (aperture === undefined ? undefined : `f/${aperture}`),
  shutter: ({ exposed: { shutter } }) => (shutter === undefined ? undefined : `${shutter} s`),
  filter: ({ exposed }) => exposed.filter,
  rated: ({ exposed: { rated } }) => (rated === undefined ? undefined : `EI ${rated}`),
  developer: ({ exposed }) => exposed.developer,
  keywords: ({ iptc }) => iptc.keywords?.join(", "),
  creator: ({ iptc }) => iptc.creator,
  copyright: ({ iptc }) => iptc.copyright,
} as const satisfies Record<string, Field>;

/** A field that a contact sheet may show. */
export type ContactField = keyof typeof FIELDS;

/** Names of the fields, in the order in which sheets are asked for them. */
export const CONTACT_FIELDS = Object.keys(FIELDS) as readonly ContactField[];

/** The first name of a list that is no field; undefined where all are. */
export const unknownField = (names: readonly string[]): string | undefined =>
  names.find((name) => !Object.hasOwn(FIELDS, name));

/** What a frame states in the chosen fields, in their order, on one line; undefined where it states none of them. */
export function fieldText(frame: ResolvedFrame, fields: readonly ContactField[]): string | undefined {
  const parts = fields.flatMap((name) => {
    const text = (FIELDS[name] as Field)(frame)?.trim().replaceAll(/\s+/g, " ");
    return text ? [text] : [];
  });
  return parts.length > 0 ? parts.join(" · ") : undefined;
}
