/**
 * Random changes of whole files and texts at every door, with seeds kept: fast-check prints the seed of a find, which
 * goes into `SEEDS` with the mending. FUZZ_RUNS plays more. What the coverage-guided fuzzer (run.mjs) found is in finds/.
 */
import fc from "../properties.ts";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { beforeAll, describe, expect, test } from "vitest";
import { decodeScan } from "../../extension/scans/decode.ts";
import { ScanError } from "../../extension/scans/errors.ts";
import { temporaryFolder } from "../unit/scans/files.ts";
import { messageDoor, metadataDoor, yamlDoor } from "./doors.ts";
import { smallFiles } from "./small-files.ts";

/** Each is played anew by every run. */
const SEEDS = [1, 20_261_125];
const runs = Number(process.env.FUZZ_RUNS ?? 60);
const LIMIT = { numRuns: runs, interruptAfterTimeLimit: 4000 * Math.max(1, runs / 60), markInterruptAsFailure: false };

const folder = temporaryFolder();
const files: Record<string, Uint8Array> = smallFiles();
beforeAll(async () => {
  const grey = { create: { width: 40, height: 30, channels: 3, background: "#776655" } } as const;
  files["a.jpg"] = await sharp(grey)
    .withExif({ IFD0: { Make: "Test" } })
    .jpeg()
    .toBuffer();
  files["deflate.tif"] = await sharp(grey).tiff({ compression: "deflate" }).toBuffer();
});

/** A file with some bytes changed, put in, taken out or cut off. */
const spoilt = fc.tuple(
  fc.nat(5),
  fc.array(fc.tuple(fc.nat(), fc.constantFrom("set", "long", "cut", "in"), fc.integer({ min: 0, max: 0xffffffff })), {
    minLength: 1,
    maxLength: 6,
  }),
);

type Change = readonly [at: number, how: string, value: number];

function spoil(which: number, changes: readonly Change[]): Uint8Array {
  const names = Object.keys(files).toSorted();
  let bytes = Buffer.from(files[names[which % names.length]!]!);
  for (const [where, how, value] of changes) {
    // Headers are where it hurts: most changes are near the beginning or the end.
    const span = value % 3 === 0 ? bytes.length : Math.min(bytes.length, 700);
    const at = value % 5 === 0 ? bytes.length - 1 - (where % Math.min(bytes.length, 500)) : where % span;
    if (how === "set") bytes[at] = value & 0xff;
    else if (how === "long" && at + 4 <= bytes.length) bytes.writeUInt32LE(value, at);
    else if (how === "cut" && bytes.length > 40) bytes = bytes.subarray(0, Math.max(20, at));
    else if (how === "in")
      bytes = Buffer.concat([bytes.subarray(0, at), Buffer.from([value & 0xff]), bytes.subarray(at)]);
    if (bytes.length < 20) break;
  }
  return bytes;
}

describe.each(SEEDS)("seed %i", (seed) => {
  test("the decoder's door gives a scan or a refusal of ours", async () => {
    let played = 0;
    await fc.assert(
      fc.asyncProperty(spoilt, async ([which, changes]) => {
        const path = join(folder.path, `f${played++ % 4}.dng`);
        writeFileSync(path, spoil(which, changes as Change[]));
        try {
          const { scan } = await decodeScan(path);
          expect(scan.data.length).toBe(scan.width * scan.height * scan.channels);
        } catch (error) {
          if (!(error instanceof ScanError)) throw error;
        }
      }),
      { ...LIMIT, seed },
    );
  });

  test("the readers of headers", () => {
    const property = fc.property(spoilt, ([which, changes]) => metadataDoor(spoil(which, changes as Change[])));
    expect(() => fc.assert(property, { ...LIMIT, numRuns: runs * 20, seed })).not.toThrow();
  });

  test("the YAML door", () => {
    const corpus = readdirSync(new URL("../corpus/valid", import.meta.url)).toSorted();
    const texts = corpus.map((name) => readFileSync(new URL(`../corpus/valid/${name}`, import.meta.url)));
    const change = fc.array(fc.tuple(fc.nat(), fc.nat(30), fc.string({ unit: "binary", maxLength: 6 })), {
      maxLength: 4,
    });
    const property = fc.property(fc.nat(), change, (which, changes) => {
      let text = texts[which % texts.length]!.toString("utf8");
      for (const [at, length, put] of changes) {
        const start = at % (text.length + 1);
        text = text.slice(0, start) + put + text.slice(start + length);
      }
      yamlDoor(Buffer.from(text));
    });
    expect(() => fc.assert(property, { ...LIMIT, seed })).not.toThrow();
  });

  test("the messages' door", async () => {
    const message = fc.record(
      {
        kind: fc.oneof(fc.constantFrom("request", "cancel", "reply", "event"), fc.jsonValue()),
        id: fc.oneof(fc.nat(3), fc.jsonValue()),
        name: fc.oneof(fc.constantFrom("select", "edit", "__proto__", "constructor", "toString"), fc.jsonValue()),
        value: fc.jsonValue(),
      },
      { requiredKeys: [] },
    );
    const property = fc.asyncProperty(fc.array(fc.oneof(message, fc.jsonValue()), { maxLength: 5 }), (all) =>
      messageDoor(new TextEncoder().encode(JSON.stringify(all))),
    );
    await expect(fc.assert(property, { ...LIMIT, seed })).resolves.toBeUndefined();
  });
});

describe("what was found once", () => {
  // Seed 1 of the decoder's door, shortened: two bytes put in front move a RAF's colour filter table.
  test.each([
    [
      ["in", 0, 0],
      ["in", 0, 0],
      ["set", 2_025_331_546, 1_287_857_979],
    ],
    [
      ["in", 1_653_516_633, 392_179_717],
      ["set", 0, 0],
    ],
  ] as const)("a file with a colour filter arrangement that no sensor has: %j", async (...changes) => {
    const path = join(folder.path, "arrangement.raf");
    writeFileSync(
      path,
      spoil(
        4,
        changes.map(([how, at, value]) => [at, how, value] as const),
      ),
    );
    await expect(decodeScan(path)).rejects.toBeInstanceOf(ScanError);
  });

  const finds = readdirSync(new URL("finds", import.meta.url)).filter((name) => name.includes("Door"));
  test.each(finds)("%s", async (name) => {
    const bytes = readFileSync(new URL(`finds/${name}`, import.meta.url));
    const door = { yamlDoor, metadataDoor, messageDoor }[name.split("-")[0] as "yamlDoor"];
    await expect(Promise.resolve().then(() => door(bytes))).resolves.toBeUndefined();
  });
});
