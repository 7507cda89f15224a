/** A strip of film on one scan: it is unpacked once for its frames, whose pictures are those of scans of their own. */
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { makePictures } from "../../../../extension/editor/preview/pictures.ts";
import type { ResolvedRoll } from "../../../../extension/recipe/resolve/resolve.ts";
import { loadRoll } from "../../../../extension/recipe/resolve/workspace.ts";
import { contactRoll } from "../../../../extension/work/contact/contact-roll.ts";
import { openWorkspace } from "../../../../extension/work/files/workspace.ts";
import { sharedDecoder } from "../../../../extension/work/frame/shared-scan.ts";
import type { Job } from "../../../../extension/work/pool/job.ts";
import type { Pool, RunOptions } from "../../../../extension/work/pool/pool.ts";
import { renderRoll } from "../../../../extension/work/render/render-roll.ts";
import { RGGB, writeDng } from "../../../witness/raw/dng.ts";
import { runHere } from "../run-here.ts";

/** Names of the files that were unpacked, in order. */
const unpacked = vi.hoisted((): string[] => []);
vi.mock(import("../../../../extension/scans/raw/decode-raw.ts"), async (original) => {
  const module = await original();
  return {
    ...module,
    unpackRaw: (file, ...rest) => {
      unpacked.push(file.split(/[\\/]/).at(-1)!);
      return module.unpackRaw(file, ...rest);
    },
  };
});

const [WIDTH, HEIGHT] = [360, 240];

function film(seed: number): Uint8Array {
  const data = Uint16Array.from({ length: WIDTH * HEIGHT }, (_, i) => {
    const [x, y] = [i % WIDTH, Math.floor(i / WIDTH)];
    return 600 + 15_000 * 10 ** -(0.5 + 0.3 * Math.sin((x + seed) / 7) + 0.2 * Math.cos(y / 5) + (i % 7) / 100);
  });
  const exif = { shutter: 1 / 50, aperture: 8, iso: 100, time: "2026:05:16 10:00:00" };
  return writeDng({ width: WIDTH, height: HEIGHT, data, pattern: RGGB, bits: 14, black: 600, white: 16_000, exif });
}

const [LENS, AREAS] = [
  "light: { lens: { lateral: { red: [0.002, 0], blue: [-0.001, 0] } } }\n",
  [0, 1, 2].map((k) => `{ left: ${0.05 + 0.3 * k}, top: 0.3, width: 0.28, height: 0.4, tilt: ${0.5 - k} }`),
];
const recipe = (scans: readonly string[], more = ""): string => `version: 2
scans: scans
${more}negative: { base: { density: [0.3, 0.5, 0.6] }, gamma: 0.58 }
output:
  - { name: archive, type: tiff, depth: 16, space: romm }
frames:
${scans.map((scan, k) => `  "0${k + 1}": { scan: ${scan}, area: ${AREAS[k % 3]}, spots: [[${0.1 + 0.3 * (k % 3)}, 0.4, 0.01]] }\n`).join("")}`;

/** A pool of one worker: jobs one by one, those about what was worked on last before others, as WorkerQueue has them. */
function oneWorker(): Pool {
  const queue: { readonly near: string | undefined; readonly start: () => Promise<void> }[] = [];
  let [busy, about] = [false, undefined as string | undefined];
  async function work(): Promise<void> {
    if (busy) return;
    busy = true;
    for (;;) {
      await new Promise((resolve) => setImmediate(resolve));
      const own = queue.findIndex(({ near }) => near !== undefined && near === about);
      const [next] = queue.splice(Math.max(0, own), 1);
      if (!next) break;
      about = next.near ?? about;
      await next.start();
    }
    busy = false;
  }
  return {
    workers: 1,
    run: (job: Job<unknown, unknown>, payload: unknown, { near }: RunOptions = {}) =>
      new Promise((resolve, reject) => {
        queue.push({ near, start: () => runHere(job, payload).then(resolve, reject) });
        void work();
      }),
  } as unknown as Pool;
}

describe("frames of one scan", () => {
  const folder = mkdtempSync(join(tmpdir(), "shared-"));
  const path = (name: string): string => join(folder, "scans", name);
  const workspace = openWorkspace(folder);
  async function rollOf(name: string, text: string): Promise<ResolvedRoll> {
    writeFileSync(join(folder, `${name}.roll.yaml`), text);
    const loaded = await loadRoll(`${name}.roll.yaml`, workspace);
    if (!loaded?.resolved) throw new Error(JSON.stringify(loaded?.problems));
    return loaded.resolved;
  }
  const render = async (name: string, text: string) => {
    const roll = await rollOf(name, text);
    const frames = roll.frames.map(({ id }) => id);
    const directory = join(folder, name);
    const steps: number[] = [];
    const reports = await renderRoll(
      roll,
      workspace,
      oneWorker(),
      { frames, outputs: roll.outputs, directory, overwrite: false, resume: false },
      { onProgress: (done) => steps.push(done) },
    );
    const samples = reports.flatMap(({ pictures }) =>
      pictures.map(({ file }) =>
        sharp(readFileSync(join(directory, file)))
          .raw()
          .toBuffer(),
      ),
    );
    return { reports, steps, samples: await Promise.all(samples) };
  };

  beforeAll(async () => {
    mkdirSync(join(folder, "scans"));
    writeFileSync(path("STRIP.dng"), film(1));
    writeFileSync(path("OTHER.dng"), film(40));
    for (const name of ["A.dng", "B.dng", "C.dng", "PART.dng"]) copyFileSync(path("STRIP.dng"), path(name));
    truncateSync(path("PART.dng"), 20_000);
    const tiff = sharp(Buffer.alloc(WIDTH * HEIGHT * 3, 90), { raw: { width: WIDTH, height: HEIGHT, channels: 3 } });
    const noise = Buffer.from(Uint8Array.from({ length: WIDTH * HEIGHT * 3 }, (_, i) => (i * 2_654_435_761) >>> 25));
    await tiff
      .composite([{ input: noise, raw: { width: WIDTH, height: HEIGHT, channels: 3 }, blend: "add" }])
      .tiff({ compression: "none" })
      .toFile(path("STRIP.tif"));
    for (const name of ["A.tif", "B.tif", "C.tif"]) copyFileSync(path("STRIP.tif"), path(name));
  });
  beforeEach(() => void (unpacked.length = 0));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it.each(["", LENS])(
    "are rendered from one decoding, to the samples that scans of their own give (%j)",
    async (lens) => {
      const name = lens ? "lens" : "plain";
      const shared = await render(name, recipe(["STRIP.dng", "STRIP.dng", "STRIP.dng"], lens));
      expect(unpacked).toEqual(["STRIP.dng"]);
      const apart = await render(`${name}-apart`, recipe(["A.dng", "B.dng", "C.dng"], lens));
      expect(unpacked.toSorted()).toEqual(["A.dng", "B.dng", "C.dng", "STRIP.dng"]);
      expect(shared.samples).toHaveLength(3);
      expect(shared.samples).toEqual(apart.samples);
      expect(shared.reports.map(({ frame }) => frame)).toEqual(["01", "02", "03"]);
      expect(shared.steps.at(-1)).toBe(3);
      expect(shared.steps).toEqual(shared.steps.toSorted((a, b) => a - b));
    },
  );

  it("are rendered alike from a picture file, whose memory is each frame's own", async () => {
    const shared = await render("tiff", recipe(["STRIP.tif", "STRIP.tif", "STRIP.tif"], LENS));
    const apart = await render("tiff-apart", recipe(["A.tif", "B.tif", "C.tif"], LENS));
    expect(shared.reports.flatMap(({ failure }) => failure ?? [])).toEqual([]);
    expect(shared.samples).toHaveLength(3);
    expect(shared.samples).toEqual(apart.samples);
  });

  it("follow one another where others lie between them, and are reported in the recipe's order", async () => {
    const names = ["STRIP.dng", "OTHER.dng", "STRIP.dng", "OTHER.dng", "A.dng", "STRIP.dng"];
    const { reports } = await render("mixed", recipe(names));
    expect(unpacked.toSorted()).toEqual(["A.dng", "OTHER.dng", "STRIP.dng"]);
    expect(reports.map(({ frame, status }) => `${frame} ${status}`)).toEqual(names.map((_, k) => `0${k + 1} written`));
  });

  it("fail together where their scan is broken, and harm no others", async () => {
    const { reports } = await render("broken", recipe(["PART.dng", "PART.dng", "OTHER.dng", "PART.dng"]));
    expect(reports.map(({ status }) => status)).toEqual(["failed", "failed", "written", "failed"]);
    for (const { failure } of reports.filter(({ status }) => status === "failed"))
      expect(basename(failure!.file!)).toBe("PART.dng");
  });

  it("lie on a contact sheet from one decoding", async () => {
    const roll = await rollOf("sheet", recipe(["STRIP.dng", "STRIP.dng", "STRIP.dng", "OTHER.dng"]));
    const file = join(folder, "sheet.jpg");
    const { failures } = await contactRoll(roll, workspace, oneWorker(), { file, type: "jpeg", overwrite: false });
    expect(failures).toEqual([]);
    expect(unpacked.toSorted()).toEqual(["OTHER.dng", "STRIP.dng"]);
  });

  it("are shown by the preview from one decoding, small, and from one more, close", async () => {
    const roll = await rollOf("preview", recipe(["STRIP.dng", "STRIP.dng", "STRIP.dng"]));
    const pictures = makePictures(oneWorker(), { folder: join(folder, "cache"), maxBytes: 50e6 });
    const { signal } = new AbortController();
    const show = (want: "picture" | "thumbnail" | { left: number; top: number; width: number; height: number }) =>
      Promise.all(
        ["01", "02", "03"].map((id) =>
          pictures.proxy({ roll, workspace }, id, want, signal).then(({ codes }) => codes),
        ),
      );
    await show("thumbnail");
    await show("picture");
    // The scan is small, so that first a quarter and then half of it is read; a large one is read once.
    expect(unpacked.length).toBeLessThanOrEqual(2);
    unpacked.length = 0;
    const close = await show({ left: 0.05, top: 0.3, width: 0.9, height: 0.3 });
    expect(unpacked).toEqual(["STRIP.dng"]);
    // Each frame's own specks are healed and no others.
    expect(close[0]).not.toEqual(close[1]);
    expect(await show({ left: 0.05, top: 0.3, width: 0.9, height: 0.3 })).toEqual(close);
    expect(unpacked).toEqual(["STRIP.dng"]);
  });

  it("are decoded again from a file that has changed meanwhile, or once no others follow", async () => {
    copyFileSync(path("A.dng"), path("CHANGED.dng"));
    const first = await sharedDecoder(true)(path("CHANGED.dng"));
    writeFileSync(path("CHANGED.dng"), Buffer.concat([film(90), Buffer.alloc(64)]));
    const second = await sharedDecoder(false)(path("CHANGED.dng"));
    expect(second.scan.data).not.toEqual(first.scan.data);
    await sharedDecoder(true)(path("CHANGED.dng"));
    expect(unpacked).toHaveLength(3);
  });
});
