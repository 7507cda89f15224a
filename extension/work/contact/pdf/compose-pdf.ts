/** The job that composes a contact sheet as a PDF file (ISO 32000-1) out of thumbnails. */
import type { PDFDocument, PDFImage } from "@cantoo/pdf-lib";
import { loadCodec } from "../../../scans/codec.ts";
import { iccProfile } from "../../../scans/output/icc.ts";
import type { Fingerprint } from "../../../scans/files/fingerprint.ts";
import { writePicture } from "../../render/render-frame.ts";
import type { ContactCell } from "../contact-sheet.ts";
import type { SmallPicture } from "../thumbnail.ts";
import { type Box, FIELD_LINES, LINE, NOTE_LINES, pdfLayout, SHEET_PPI, type SheetPaper, TYPE } from "./pdf-layout.ts";
import { drawLine, linesOf, type TextStyle } from "./pdf-text.ts";

export interface ComposePdf {
  readonly title: string;
  /** One line under the title. */
  readonly subtitle: string;
  /** The roll's note. */
  readonly note?: string;
  readonly cells: readonly ContactCell[];
  /** Whether frames have fields below their pictures. */
  readonly hasFields: boolean;
  readonly paper: SheetPaper;
  /** Absolute path. */
  readonly path: string;
  /** What may be replaced, and the folder's mark; see WriteOptions. */
  readonly replace: boolean | string;
  readonly folder: string;
  readonly software: string;
}

export interface PdfSheet extends Omit<Fingerprint, "size"> {
  /** Of a page, at SHEET_PPI. */
  readonly width: number;
  readonly height: number;
  readonly pages: number;
  readonly bytes: number;
}

/** Quality of the pictures on the sheet, JPEG's scale; colour is kept at full resolution. */
const QUALITY = 92;

/** Draws a contact sheet as pages of a PDF file and writes it. Same cells, same bytes. */
export async function composePdf(request: ComposePdf): Promise<PdfSheet> {
  const { PDFDocument, PDFName, StandardFonts, rgb } = await import("./pdf-library.ts");
  const document = await PDFDocument.create({ updateMetadata: false });
  document.setTitle(request.title);
  document.setCreator(request.software);
  document.setProducer(request.software);
  const [plain, bold] = [
    await document.embedFont(StandardFonts.Helvetica),
    await document.embedFont(StandardFonts.HelveticaBold),
  ];
  const [ink, dim] = [rgb(0.1, 0.1, 0.1), rgb(0.4, 0.4, 0.4)];
  const style = {
    title: { font: bold, size: TYPE.title, colour: ink },
    head: { font: plain, size: TYPE.head, colour: dim },
    frame: { font: bold, size: TYPE.frame, colour: ink },
    text: { font: plain, size: TYPE.text, colour: ink },
    dim: { font: plain, size: TYPE.text, colour: dim },
  } as const satisfies Record<string, TextStyle>;
  const { cells, paper, hasFields } = request;
  const first = pdfLayout(cells.length, paper, hasFields ? FIELD_LINES : 0, 0);
  const across = first.width - 2 * first.margin;
  const note = request.note ? linesOf(request.note, style.head, across, NOTE_LINES) : [];
  const layout = pdfLayout(cells.length, paper, hasFields ? FIELD_LINES : 0, note.length);
  const profile = document.context.register(
    document.context.flateStream(iccProfile("srgb", 3), { N: 3, Alternate: "DeviceRGB" }),
  );
  const embed = async (picture: SmallPicture): Promise<PDFImage> => {
    const image = await document.embedJpg(await jpegOf(picture));
    await image.embed();
    const stream = document.context.lookup(image.ref) as unknown as { dict: { set(name: unknown, to: unknown): void } };
    stream.dict.set(PDFName.of("ColorSpace"), document.context.obj([PDFName.of("ICCBased"), profile]));
    return image;
  };

  let k = 0;
  for (const [number, boxes] of layout.pages.entries()) {
    const page = document.addPage([layout.width, layout.height]);
    const draw = (line: string, x: number, baseline: number, look: TextStyle): Promise<void> =>
      drawLine(document, page, line, { x, y: layout.height - baseline }, look);
    const [title = ""] = linesOf(request.title, style.title, across, 1);
    await draw(title, layout.margin, layout.margin + TYPE.title, style.title);
    const [subtitle = ""] = linesOf(request.subtitle, style.head, across, 1);
    await draw(subtitle, layout.margin, layout.margin + TYPE.title + TYPE.head * 1.5, style.head);
    if (number === 0)
      for (const [i, line] of note.entries())
        await draw(line, layout.margin, layout.margin + TYPE.title + TYPE.head * (1.5 + LINE * (i + 1)), style.head);
    for (const box of boxes) {
      const cell = cells[k++]!;
      if (cell.picture) {
        const [width, height] = [cell.picture.width, cell.picture.height].map((v) => (v / SHEET_PPI) * 72);
        const left = box.left + (box.width - width!) / 2;
        const top = box.top + (box.height - height!) / 2;
        page.drawImage(await embed(cell.picture), { x: left, y: layout.height - top - height!, width, height });
      } else {
        page.drawRectangle({
          x: box.left,
          y: layout.height - box.top - box.height,
          width: box.width,
          height: box.height,
          borderColor: dim,
          borderWidth: 0.5,
        });
        const lines = linesOf(cell.failure ?? "", style.dim, box.width - 8, 5);
        for (const [i, line] of lines.entries())
          await draw(line, box.left + 4, box.top + 10 + i * TYPE.text * LINE, style.dim);
      }
      await drawCaption(cell, box, draw, style);
    }
    if (layout.pages.length > 1) {
      const text = `${number + 1} / ${layout.pages.length}`;
      const width = plain.widthOfTextAtSize(text, TYPE.foot);
      await draw(text, layout.width - layout.margin - width, layout.height - layout.margin + 8, style.dim);
    }
  }
  const bytes = await save(document);
  const { size, sha256 } = await writePicture(request, bytes);
  const [width, height] = [layout.width, layout.height].map((v) => Math.round((v / 72) * SHEET_PPI)) as [
    number,
    number,
  ];
  return { width, height, pages: layout.pages.length, bytes: size, sha256 };
}

type Draw = (line: string, x: number, baseline: number, style: TextStyle) => Promise<void>;

/** The frame's number and title, and its fields below. */
async function drawCaption(
  { frame, title, fields }: ContactCell,
  { left, top, width, height }: Box,
  draw: Draw,
  style: Readonly<Record<"frame" | "text" | "dim", TextStyle>>,
): Promise<void> {
  const baseline = top + height + TYPE.frame * 1.1;
  await draw(frame, left, baseline, style.frame);
  const indent = style.frame.font.widthOfTextAtSize(frame, TYPE.frame) + 4;
  const [shown] = title ? linesOf(title, style.text, width - indent, 1) : [];
  if (shown) await draw(shown, left + indent, baseline, style.text);
  const lines = fields ? linesOf(fields, style.dim, width, FIELD_LINES) : [];
  for (const [i, line] of lines.entries()) await draw(line, left, baseline + (i + 1) * TYPE.text * LINE, style.dim);
}

/** JPEG of a thumbnail, in three channels. */
async function jpegOf({ width, height, channels, data }: SmallPicture): Promise<Uint8Array> {
  const openPicture = await loadCodec();
  return await openPicture(data, { raw: { width, height, channels } })
    .toColourspace("srgb")
    .jpeg({ quality: QUALITY, chromaSubsampling: "4:4:4" })
    .toBuffer();
}

/** The file's bytes, which hold neither a date nor anything random. */
const save = (document: PDFDocument): Promise<Uint8Array> => document.save({ addDefaultPage: false });
