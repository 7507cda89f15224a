/**
 * Text on the pages of a contact sheet. Letters of the PDF's standard font are text, which can be searched and copied; a
 * line with others (the standard font holds those of western Europe) is drawn with the computer's fonts as a picture.
 */
import type { PDFDocument, PDFFont, PDFPage, RGB } from "@cantoo/pdf-lib";
import { loadCodec } from "../../../scans/codec.ts";
import { escapeMarkup } from "../../../recipe/plain-text.ts";
import { allowedInXml } from "../contact-sheet.ts";
import { SHEET_PPI } from "./pdf-layout.ts";

export interface TextStyle {
  readonly font: PDFFont;
  readonly size: number;
  readonly colour: RGB;
}

/** The text as lines of at most `width` points; what does not fit into `maxLines` ends in an ellipsis. */
export function linesOf(
  text: string,
  { font, size }: Pick<TextStyle, "font" | "size">,
  width: number,
  maxLines: number,
): string[] {
  const widthOf = (line: string): number => font.widthOfTextAtSize(measurable(line, font), size);
  const lines: string[] = [];
  let line = "";
  for (const word of text.trim().split(/\s+/)) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (line === "" || widthOf(longer) <= width) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  if (line !== "") lines.push(line);
  const shown = lines.slice(0, maxLines);
  return shown.map((one, k) => {
    const more = k === maxLines - 1 && lines.length > maxLines;
    return widthOf(one) <= width && !more ? one : shortened(one, width, widthOf);
  });
}

function shortened(line: string, width: number, widthOf: (line: string) => number): string {
  const letters = Array.from(line);
  while (letters.length > 1 && widthOf(`${letters.join("")}…`) > width) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}

/** Whether the font holds every letter. */
function holds(line: string, font: PDFFont): boolean {
  const known = new Set(font.getCharacterSet());
  return Array.from(line).every((letter) => known.has(letter.codePointAt(0)!));
}

/** The line with letters that the font does not hold replaced by a wide one, so that it can be measured. */
function measurable(line: string, font: PDFFont): string {
  if (holds(line, font)) return line;
  const known = new Set(font.getCharacterSet());
  return Array.from(line, (letter) => (known.has(letter.codePointAt(0)!) ? letter : "M")).join("");
}

/** Draws one line with its baseline at (x, y) from the bottom left. */
export async function drawLine(
  document: PDFDocument,
  page: PDFPage,
  line: string,
  at: { readonly x: number; readonly y: number },
  style: TextStyle,
): Promise<void> {
  const { font, size, colour } = style;
  if (holds(line, font)) {
    page.drawText(line, { ...at, size, font, color: colour });
    return;
  }
  // Rendered larger than it is shown: descenders and accents need room around the letters.
  const [width, height] = [font.widthOfTextAtSize(measurable(line, font), size) + size, size * 1.6];
  const scale = SHEET_PPI / 72;
  const [red, green, blue] = [colour.red, colour.green, colour.blue].map((v) => Math.round(255 * v));
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${Math.ceil(width * scale)}" height="${Math.ceil(height * scale)}">` +
    `<text x="0" y="${size * 1.2 * scale}" font-size="${size * scale}" fill="rgb(${red},${green},${blue})" font-family="Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif">${escapeMarkup(allowedInXml(line))}</text></svg>`;
  const openPicture = await loadCodec();
  const png = await openPicture(Buffer.from(svg)).png().toBuffer();
  page.drawImage(await document.embedPng(png), { x: at.x, y: at.y - size * 0.4, width, height });
}
