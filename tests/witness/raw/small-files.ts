/** One small valid raw file of each format that is written here, and damaged ones; for decoders that must not mix them up. */
import { CR2, writeCr2 } from "./cr2.ts";
import { type DngOptions, writeDng } from "./dng.ts";
import { type MakerFile, writeArw, writeNef, writeOrf, writePef } from "./maker-files.ts";
import { writeRaf } from "./raf.ts";

const [WIDTH, HEIGHT] = [192, 144];

function noise(count: number, low: number, range: number, seed = 1): Uint16Array {
  let state = seed;
  return Uint16Array.from({ length: count }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return low + Math.floor((state / 2 ** 32) * range);
  });
}

export function validFiles(): Record<string, Uint8Array> {
  const data = noise(WIDTH * HEIGHT, 700, 14_000);
  const coarse = noise(WIDTH * HEIGHT, 220, 3700);
  const size = { width: WIDTH, height: HEIGHT };
  const dng: DngOptions = { ...size, data, black: 512, white: 15_000 };
  const maker: MakerFile = { ...size, data, black: [600, 601, 602, 603] };
  const packed: MakerFile = { ...size, data: coarse, black: [200, 201, 202, 203] };
  const linear = noise(WIDTH * HEIGHT * 3, 600, 60_000);
  return {
    "plain.dng": writeDng(dng),
    "packed.dng": writeDng({ ...dng, bits: 14 }),
    "jpeg.dng": writeDng({ ...dng, bits: 14, compression: "jpeg" }),
    "monochrome.dng": writeDng({ ...dng, kind: "monochrome" }),
    "linear.dng": writeDng({ ...size, kind: "linear", data: linear, black: [256, 300, 280], white: 62_000 }),
    "plain.raf": writeRaf({ ...size, data: noise(WIDTH * HEIGHT, 1100, 14_000), black: 1024 }),
    "14.nef": writeNef(maker, 14),
    "12.nef": writeNef(packed, 12),
    "14.arw": writeArw(maker),
    "12.orf": writeOrf(packed),
    "12.pef": writePef(packed),
    "sliced.cr2": writeCr2({ data: noise(CR2.width * CR2.height, 600, 9000), slices: { count: 2, width: 752 } }),
  };
}

/** Cut off, spoilt in the header, spoilt in the data; in a way that is the same every time. */
export function damagedFiles(): Record<string, Uint8Array> {
  const files = Object.entries(validFiles()).filter(([name]) => !name.endsWith(".cr2"));
  const damaged: Record<string, Uint8Array> = { "cut.cr3": cutCr3() };
  for (const [i, [name, bytes]] of files.entries()) {
    if (i % 2) damaged[`cut-${name}`] = bytes.slice(0, Math.floor(bytes.length * (0.3 + 0.05 * i)));
    else damaged[`spoilt-${name}`] = spoilt(bytes, i + 1);
  }
  return damaged;
}

function spoilt(bytes: Uint8Array, seed: number): Uint8Array {
  const copy = bytes.slice();
  const places = noise(24, 0, 65_536, seed);
  const values = noise(24, 0, 256, seed + 99);
  // Directories lie at the end, data before them.
  places.forEach((place, i) => {
    const at = i % 2 ? copy.length - 1 - (place % 400) : 8 + Math.floor((place / 65_536) * (copy.length - 8));
    copy[at] = values[i];
  });
  return copy;
}

/** Boxes of ISO/IEC 14496-12 that begin like a camera's and end before its samples. */
function cutCr3(): Uint8Array {
  const box = (type: string, ...content: number[]): number[] => [
    0,
    0,
    0,
    8 + content.length,
    ...Array.from(type, (character) => character.charCodeAt(0)),
    ...content,
  ];
  const brand = Array.from("crx \0\0\0\x01crx isom", (character) => character.charCodeAt(0));
  return Uint8Array.from([...box("ftyp", ...brand), ...box("moov", ...box("trak"), ...box("trak")), ...box("mdat")]);
}
