/** Texts and files made to take time or memory; docs/security.md has the table. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { deflateSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { parseRecipe } from "../../extension/recipe/problems/document.ts";
import { decodeScan } from "../../extension/scans/decode.ts";
import { writeDng } from "../witness/raw/dng.ts";
import { buildTiff, type Field } from "../witness/raw/tiff.ts";
import { temporaryFolder } from "../unit/scans/files.ts";

/** Pieces that cost the YAML reader most; repeated up to the most that is read, and up to just below two million. */
const pieces: readonly [name: string, head: string, piece: string, tail: string][] = [
  ["quotes", "", '"', ""],
  ["single quotes", "", "'", ""],
  ["pairs of quotes", "", '""', ""],
  ["quoted lines", "", '"a"\n', ""],
  ["closing brackets", "", "]", ""],
  ["pairs of brackets", "", "[]", ""],
  ["lines of brackets", "", "[]\n", ""],
  ["commas", "[", "1,", "]"],
  ["tags", "[", "!a a,", "]"],
  ["tags in a row", "", "!a ", ""],
  ["anchors", "[", "&a 1,", "]"],
  ["aliases", "a: &a 1\nb: [", "*a,", "]"],
  ["list items", "", "- 1\n", ""],
  ["one key", "", "a: 1\n", ""],
  ["question marks", "", "?\n", ""],
  ["directives", "", "%a\n", ""],
  ["wrong escapes", '"', "\\x", '"'],
  ["empty lines", "", "\n", ""],
  ["comments", "", "#\n", ""],
];
const FULL = 1_950_000;
const MARKS = 119_000;
const weight = (text: string): number =>
  text.split("").reduce((sum, sign) => sum + ("[]{}".includes(sign) ? 2 : "\n\r\"'\\,&*!%?".includes(sign) ? 1 : 0), 0);

describe("no text takes long", () => {
  test.each(pieces)("%s", (name, head, piece, tail) => {
    const most = Math.min(FULL / piece.length, MARKS / weight(piece));
    for (const count of [Math.floor(FULL / piece.length), Math.floor(most)]) {
      const text = head + piece.repeat(count) + tail;
      const start = process.cpuUsage();
      const { problems } = parseRecipe(text, { file: "a.roll.yaml" });
      const { user, system } = process.cpuUsage(start);
      const seconds = (user + system) / 1e6;
      if (process.env.FIGURES)
        console.log(`${name.padEnd(20)} ${String(text.length).padStart(8)} characters ${seconds.toFixed(2)} s`);
      expect(problems.length).toBeGreaterThan(0);
      // About one second on a quiet machine; the bound is for one that is not.
      expect(seconds).toBeLessThan(5);
    }
  });

  test("a roll of a thousand frames, each adjusted, is read", () => {
    const frame = (k: number) =>
      `  "${k}":\n    scan: H${k}.dng\n    area: { left: 0.05, top: 0.06, width: 0.9, height: 0.88, tilt: -0.4 }\n    positive: { exposure: 0.3, filtration: { cyan: 0, magenta: 4, yellow: 7 } }\n`;
    const text = `version: 1\nframes:\n${Array.from({ length: 999 }, (_, k) => frame(k + 1)).join("")}`;
    const { problems } = parseRecipe(text, { file: "a.roll.yaml" });
    expect(problems.filter((p) => p.code === "too-large")).toEqual([]);
  });
});

describe("a file that claims to be huge is refused before memory is asked for", () => {
  const folder = temporaryFolder();
  const claims: readonly [name: string, width: number, height: number][] = [
    ["two thousand million pixels", 46_000, 46_000],
    ["a line as long as it gets", 0xffffffff, 1],
    ["sides whose product is no 32-bit number", 65_537, 65_537],
    ["more than so few bytes can hold", 14_000, 14_000],
  ];

  test.each(claims)("a TIFF: %s", async (_, width, height) => {
    const fields = new Map<number, Field>([
      [256, ["long", width]],
      [257, ["long", height]],
      [258, ["short", [16, 16, 16]]],
      [259, ["short", 8]],
      [262, ["short", 2]],
      [277, ["short", 3]],
    ]);
    expect(
      await refusalInLittle(folder.put("bomb.tif", buildTiff({ fields, image: [deflateSync(new Uint8Array(1e6))] }))),
    ).toMatch(REFUSED);
  });

  test.each(claims)("a DNG: %s", async (_, width, height) => {
    const bytes = writeDng({ width: 64, height: 64, data: new Uint16Array(4096), black: 0, white: 4095, bits: 16 });
    const path = folder.put("bomb.dng", overwriteSize(bytes, 64, width, height));
    expect(await refusalInLittle(path)).toMatch(REFUSED);
  });

  test("a JPEG whose header is blown up", async () => {
    const { default: sharp } = await import("sharp");
    const bytes = await sharp({ create: { width: 32, height: 32, channels: 3, background: "#888888" } })
      .jpeg()
      .toBuffer();
    const at = bytes.indexOf(Buffer.from([0xff, 0xc0]));
    bytes.writeUInt16BE(65_000, at + 5);
    bytes.writeUInt16BE(65_000, at + 7);
    writeFileSync(join(folder.path, "bomb.jpg"), bytes);
    expect(await refusalInLittle(join(folder.path, "bomb.jpg"))).toMatch(REFUSED);
  });

  const REFUSED = /^(too-large|truncated|corrupt)$/;

  /** Its code, got with little memory. */
  async function refusalInLittle(path: string): Promise<string> {
    const before = process.memoryUsage();
    const error = await decodeScan(path).then(
      () => expect.unreachable("it should be refused"),
      (e: { code: string }) => e,
    );
    const { rss, arrayBuffers } = process.memoryUsage();
    expect(arrayBuffers - before.arrayBuffers).toBeLessThan(50e6);
    expect(rss - before.rss).toBeLessThan(200e6);
    return error.code;
  }
});

/** Every 32-bit width and height of the first directories that says `was` says something else after. */
function overwriteSize(bytes: Uint8Array, was: number, width: number, height: number): Uint8Array {
  const out = bytes.slice();
  const view = new DataView(out.buffer);
  const little = out[0] === 0x49;
  for (let at = 8; at + 12 <= out.length; at += 2) {
    const tag = view.getUint16(at, little);
    if (
      (tag === 256 || tag === 257) &&
      [3, 4].includes(view.getUint16(at + 2, little)) &&
      view.getUint32(at + 4, little) === 1
    ) {
      const long = view.getUint16(at + 2, little) === 4;
      const value = long ? view.getUint32(at + 8, little) : view.getUint16(at + 8, little);
      if (value !== was) continue;
      view.setUint16(at + 2, 4, little);
      view.setUint32(at + 8, tag === 256 ? width : height, little);
    }
  }
  return out;
}
