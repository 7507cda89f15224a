/** The contact sheet as PDF, read back by PDF.js (Mozilla, by way of unpdf), which shares no line with the writer. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { getDocumentProxy, getResolvedPDFJS } from "unpdf";
import { afterAll, describe, expect, it } from "vitest";
import { folderMark } from "../../../../extension/scans/files/file-mark.ts";
import type { ContactCell } from "../../../../extension/work/contact/contact-sheet.ts";
import { type ComposePdf, composePdf } from "../../../../extension/work/contact/pdf/compose-pdf.ts";
import { pdfLayout, SHEET_PAPERS, SHEET_PPI } from "../../../../extension/work/contact/pdf/pdf-layout.ts";

const folder = mkdtempSync(join(tmpdir(), "rollbook-pdf-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** A picture of one colour; every third one stands. */
function cell(k: number, [wide, high]: readonly [number, number]): ContactCell {
  const [width, height] = k % 3 === 2 ? [Math.round((high * high) / wide), high] : [wide, high];
  const data = new Uint8Array(width * height * 3);
  for (let i = 0; i < data.length; i += 3) data.set([200, 100, 50], i);
  return {
    frame: String(k + 1).padStart(2, "0"),
    title: `Ferry ${k + 1}`,
    fields: `2026-05-02 · f/${k + 1}`,
    picture: { width, height, channels: 3, data },
  };
}

let count = 0;
async function compose(change: Partial<ComposePdf> & { frames?: number } = {}) {
  const { frames = 12, paper = "a4", ...rest } = change;
  const { pixels } = pdfLayout(frames, paper, 0, 0);
  const path = join(folder, `${++count}.pdf`);
  const report = await composePdf({
    title: "Harbour, first light",
    subtitle: "Northlight 400  ·  12 frames",
    note: "Held the sky on the pier frames.",
    cells: Array.from({ length: frames }, (_, k) => cell(k, pixels)),
    hasFields: true,
    paper,
    path,
    replace: false,
    folder: folderMark(folder)!,
    software: "Rollbook test",
    ...rest,
  });
  const bytes = readFileSync(path);
  return { report, bytes, pdf: await getDocumentProxy(new Uint8Array(bytes)) };
}
type Pdf = Awaited<ReturnType<typeof getDocumentProxy>>;

/** Each page's lines of text. */
async function textOf(pdf: Pdf, page = 1): Promise<string[]> {
  const { items } = await (await pdf.getPage(page)).getTextContent();
  return items.flatMap((item) => ("str" in item && item.str.trim() !== "" ? [item.str] : []));
}

interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
  /** Width and height on the page in points. */
  readonly points: readonly [number, number];
}

/** The pictures on a page. */
async function imagesOf(pdf: Pdf): Promise<Drawn[]> {
  const { OPS } = await getResolvedPDFJS();
  const page = await pdf.getPage(1);
  const { fnArray, argsArray } = await page.getOperatorList();
  const found: Drawn[] = [];
  let scale: [number, number] = [1, 1];
  for (const [i, name] of fnArray.entries()) {
    if (name === OPS.save) scale = [1, 1];
    if (name === OPS.transform) {
      const [a, , , d] = [...(argsArray[i] as number[])];
      scale = [scale[0] * (a || 1), scale[1] * (d || 1)];
    }
    if (name !== OPS.paintImageXObject) continue;
    const [id] = argsArray[i] as [string];
    const objects = id.startsWith("g_") ? page.commonObjs : page.objs;
    const image = await new Promise<Omit<Drawn, "points">>((done) => objects.get(id, done));
    found.push({ width: image.width, height: image.height, data: image.data, points: scale });
  }
  return found;
}

describe("a contact sheet as PDF", () => {
  it.each(Object.entries(SHEET_PAPERS))(
    "has pages of %s, with title, note, frame numbers, titles and fields",
    async (paper, size) => {
      const { pdf, report } = await compose({ paper: paper as keyof typeof SHEET_PAPERS });
      expect(pdf.numPages).toBe(1);
      expect(report.pages).toBe(1);
      const { view } = await pdf.getPage(1);
      expect(view[2]).toBeCloseTo(size[0], 2);
      expect(view[3]).toBeCloseTo(size[1], 2);
      expect(report.width).toBe(Math.round((size[0] / 72) * 300));
      const text = await textOf(pdf);
      for (const line of [
        "Harbour, first light",
        "Northlight 400 · 12 frames",
        "Held the sky on the pier frames.",
        "01",
        "12",
        "Ferry 7",
        "2026-05-02 · f/7",
      ])
        expect(text).toContain(line);
      expect((await pdf.getMetadata()).info).toMatchObject({ Title: "Harbour, first light", Creator: "Rollbook test" });
    },
  );

  it("holds each picture at 300 ppi, lying or standing, in sRGB by its profile", async () => {
    const { pdf, bytes } = await compose({ frames: 6 });
    const images = await imagesOf(pdf);
    expect(images).toHaveLength(6);
    images.forEach(({ width, height, points }, k) => {
      expect((width / points[0]) * 72).toBeCloseTo(SHEET_PPI, 3);
      expect((height / points[1]) * 72).toBeCloseTo(SHEET_PPI, 3);
      expect(k % 3 === 2 ? height > width : width > height).toBe(true);
    });
    const [red, green, blue] = images[0]!.data;
    expect([red, green, blue].every((v, c) => Math.abs(v! - [200, 100, 50][c]!) <= 2)).toBe(true);
    expect(bytes.toString("latin1")).toMatch(/\/ColorSpace\s*\[\s*\/ICCBased \d+ 0 R\s*\]/);
  });

  it("goes on over as many pages as it needs, with every frame once", async () => {
    const { pdf, report } = await compose({ frames: 100 });
    expect(report.pages).toBe(pdf.numPages);
    expect(pdf.numPages).toBeGreaterThan(1);
    const all = (await Promise.all(Array.from({ length: pdf.numPages }, (_, i) => textOf(pdf, i + 1)))).flat();
    for (let k = 1; k <= 100; k++) expect(all.filter((line) => line === `Ferry ${k}`)).toHaveLength(1);
    expect(all).toContain(`2 / ${pdf.numPages}`);
    expect(all.filter((line) => line.startsWith("Held the sky"))).toHaveLength(1);
  });

  it("has the same bytes for the same cells", async () => {
    const [one, two] = [await compose(), await compose()];
    expect(one.report.sha256).toBe(two.report.sha256);
    expect(one.bytes.equals(two.bytes)).toBe(true);
  });

  it("draws letters that the standard font lacks, and cuts lines that are too long", async () => {
    const { pixels } = pdfLayout(2, "a4", 0, 0);
    const cells = [
      { ...cell(0, pixels), title: "Порт Варнхавен" },
      { ...cell(1, pixels), title: "A ferry that leaves the east pier an hour after sunrise, in fog" },
    ];
    const { pdf } = await compose({ cells });
    const text = await textOf(pdf);
    expect(text.some((line) => /^A ferry that.*…$/.test(line))).toBe(true);
    // One more picture than there are frames: the title in Cyrillic letters.
    const images = await imagesOf(pdf);
    expect(images).toHaveLength(3);
    const drawn = images.find(({ height }) => height < 60)!;
    expect(new Set(drawn.data).size).toBeGreaterThan(5);
  });

  it("says in its field why a frame is not shown", async () => {
    const { pdf } = await compose({ cells: [{ frame: "07", failure: "H0007.dng is cut off." }] });
    expect((await textOf(pdf)).join(" ")).toContain("H0007.dng is cut off.");
    expect(await imagesOf(pdf)).toHaveLength(0);
  });
});
