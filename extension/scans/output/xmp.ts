/** XMP packets (ISO 16684-1): standard properties where there are any, the rest in a namespace of Rollbook's own. */
import { DESCRIPTION_LENGTH, metadataText, type PictureMetadata } from "./metadata.ts";
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
    simple("exif:DateTimeOriginal", metadataText(meta.date)),
    simple("rollbook:Roll", metadataText(meta.roll)),
    simple("rollbook:Frame", metadataText(meta.frame)),
    simple("rollbook:Stock", metadataText(meta.stock)),
    simple("rollbook:Format", metadataText(meta.format)),
    simple("rollbook:Rated", meta.rated === undefined ? undefined : String(meta.rated)),
    simple("rollbook:Place", metadataText(meta.place)),
    sequence("rollbook:Scans", meta.scans ?? []),
    simple("rollbook:ScanCamera", metadataText(meta.scanCamera)),
    simple("rollbook:Recipe", metadataText(meta.recipe)),
  ].filter((property) => property !== "");
  const names = Object.entries(NAMESPACES).map(([prefix, uri]) => `xmlns:${prefix}="${uri}"`);
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

function sequence(name: string, texts: readonly string[]): string {
  const items = texts.map((text) => metadataText(text)).filter((text) => text !== undefined);
  if (items.length === 0) return "";
  return `<${name}><rdf:Seq>${items.map((text) => `<rdf:li>${escapeMarkup(text)}</rdf:li>`).join("")}</rdf:Seq></${name}>`;
}
