/**
 * XMP packets (ISO 16684-1): standard properties where there are any (Dublin Core, EXIF in XMP, IPTC Core), the rest in a
 * namespace of Rollbook's own.
 */
import {
  DESCRIPTION_LENGTH,
  fractionOf,
  metadataText,
  type PictureMetadata,
  shutterFraction,
  timeParts,
} from "./metadata.ts";
import { escapeMarkup } from "../../recipe/plain-text.ts";

/** Names Rollbook's own properties; it is a name, not an address. */
export const NAMESPACE = "https://rollbook.example/ns/picture/1/";

const NAMESPACES: Readonly<Record<string, string>> = {
  rdf: "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
  dc: "http://purl.org/dc/elements/1.1/",
  xmp: "http://ns.adobe.com/xap/1.0/",
  tiff: "http://ns.adobe.com/tiff/1.0/",
  exif: "http://ns.adobe.com/exif/1.0/",
  exifEX: "http://cipa.jp/exif/1.0/",
  Iptc4xmpCore: "http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/",
  rollbook: NAMESPACE,
};

export function xmpPacket(meta: PictureMetadata): string {
  const properties = [
    languageAlternative("dc:title", metadataText(meta.title)),
    languageAlternative("dc:description", metadataText(meta.description, DESCRIPTION_LENGTH)),
    simple("xmp:CreatorTool", metadataText(meta.software)),
    simple("xmp:Rating", meta.rating === undefined ? undefined : String(meta.rating)),
    simple("tiff:Model", metadataText(meta.camera)),
    simple("exifEX:LensModel", metadataText(meta.lens)),
    sequence("dc:creator", meta.creator === undefined ? [] : [meta.creator]),
    languageAlternative("dc:rights", metadataText(meta.copyright)),
    bag("dc:subject", meta.keywords ?? []),
    simple("exif:DateTimeOriginal", metadataText(dateTime(meta))),
    simple("exif:ExposureTime", shutterFraction(meta.shutter)?.join("/")),
    simple("exif:FNumber", meta.aperture === undefined ? undefined : fractionOf(meta.aperture).join("/")),
    simple("exif:FocalLength", meta.focal === undefined ? undefined : fractionOf(meta.focal).join("/")),
    simple("exif:GPSLatitude", meta.coordinates && degreesAndMinutes(meta.coordinates[0], "NS")),
    simple("exif:GPSLongitude", meta.coordinates && degreesAndMinutes(meta.coordinates[1], "EW")),
    simple("Iptc4xmpCore:Location", metadataText(meta.place)),
    simple("rollbook:Roll", metadataText(meta.roll)),
    simple("rollbook:Frame", metadataText(meta.frame)),
    simple("rollbook:Stock", metadataText(meta.stock)),
    simple("rollbook:Format", metadataText(meta.format)),
    simple("rollbook:Rated", meta.rated === undefined ? undefined : String(meta.rated)),
    simple("rollbook:Place", metadataText(meta.place)),
    simple("rollbook:Filter", metadataText(meta.filter)),
    simple("rollbook:Developer", metadataText(meta.developer)),
    sequence("rollbook:Scans", meta.scans ?? []),
    simple("rollbook:ScanCamera", metadataText(meta.scanCamera)),
    simple("rollbook:Recipe", metadataText(meta.recipe)),
  ].filter((property) => property !== "");
  const used = Object.entries(NAMESPACES).filter(
    ([prefix]) => prefix !== "Iptc4xmpCore" || properties.some((property) => property.startsWith(`<${prefix}:`)),
  );
  const names = used.map(([prefix, uri]) => `xmlns:${prefix}="${uri}"`);
  return [
    `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>`,
    `<x:xmpmeta xmlns:x="adobe:ns:meta/">`,
    `<rdf:RDF ${names[0]}>`,
    `<rdf:Description rdf:about="" ${names.slice(1).join(" ")}>`,
    ...properties,
    `</rdf:Description>`,
    `</rdf:RDF>`,
    `</x:xmpmeta>`,
    `<?xpacket end="r"?>`,
  ].join("\n");
}

function simple(name: string, text: string | undefined): string {
  return text === undefined ? "" : `<${name}>${escapeMarkup(text)}</${name}>`;
}

function languageAlternative(name: string, text: string | undefined): string {
  if (text === undefined) return "";
  return `<${name}><rdf:Alt><rdf:li xml:lang="x-default">${escapeMarkup(text)}</rdf:li></rdf:Alt></${name}>`;
}

/** ISO 8601: the day, with the time of day where it is known. */
function dateTime({ date, time }: PictureMetadata): string | undefined {
  const parts = timeParts(time);
  return date === undefined || !parts ? date : `${date}T${parts.clock}${parts.offset ?? ""}`;
}

/** "58,14.436000N": degrees, and minutes to a millionth. */
function degreesAndMinutes(value: number, [positive, negative]: string): string {
  const millionths = Math.round(Math.abs(value) * 60_000_000);
  const whole = Math.floor(millionths / 60_000_000);
  const minutes = (millionths % 60_000_000) / 1_000_000;
  return `${whole},${minutes.toFixed(6)}${value < 0 ? negative : positive}`;
}

const sequence = (name: string, texts: readonly string[]): string => container(name, "Seq", texts);
const bag = (name: string, texts: readonly string[]): string => container(name, "Bag", texts);

function container(name: string, kind: "Seq" | "Bag", texts: readonly string[]): string {
  const items = texts.map((text) => metadataText(text)).filter((text) => text !== undefined);
  if (items.length === 0) return "";
  const list = items.map((text) => `<rdf:li>${escapeMarkup(text)}</rdf:li>`).join("");
  return `<${name}><rdf:${kind}>${list}</rdf:${kind}></${name}>`;
}
