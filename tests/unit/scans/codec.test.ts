// Which build of sharp is used, and that both write the same bytes. Builds are chosen once a process, so each runs in
// a process of its own, from a bundle as it is shipped.
import { build } from "esbuild";
import { execFileSync } from "node:child_process";
import { mkdirSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { temporaryFolder } from "./files.ts";

const root = new URL("../../..", import.meta.url).pathname;
const outside = temporaryFolder();
/** Below node_modules, where the bundle finds sharp. */
const inside = join(root, "node_modules/.cache/codec-test");

const PROGRAM = `
  import { createHash } from "node:crypto";
  import { createRequire } from "node:module";
  import { loadCodec } from "./extension/scans/codec.ts";
  import { encodePicture } from "./extension/scans/output/encode.ts";
  const report = { loaded: [], bytes: {} };
  try {
    await loadCodec();
    report.loaded = Object.values(createRequire(import.meta.url).cache).map((module) => module.filename ?? "");
    const width = 90, height = 60;
    for (const channels of [1, 3]) {
      const data = Uint16Array.from({ length: width * height * channels }, (_, i) => (i * 7919) & 65535);
      for (const [type, depth] of [["png", 16], ["png", 8], ["jpeg", 8]]) {
        const bytes = await encodePicture({ width, height, channels, data }, { type, depth, space: "adobe" }, { title: "größer", frame: "1" });
        report.bytes[type + depth + channels] = createHash("sha256").update(bytes).digest("hex");
      }
    }
  } catch (error) {
    report.error = error.message;
  }
  console.log(JSON.stringify(report));
  process.exit(0);
`;

interface Report {
  readonly loaded: readonly string[];
  readonly bytes: Record<string, string>;
  readonly error?: string;
}

beforeAll(async () => {
  mkdirSync(inside, { recursive: true });
  for (const outfile of [join(inside, "codec.mjs"), join(outside.path, "codec.mjs")])
    await build({
      stdin: { contents: PROGRAM, resolveDir: root, loader: "ts" },
      bundle: true,
      platform: "node",
      format: "esm",
      external: ["sharp"],
      outfile,
      logLevel: "silent",
    });
});
afterAll(() => rmSync(inside, { recursive: true, force: true }));

function run(folder: string, codec: string): Report {
  const env = { ...process.env, ROLLBOOK_CODEC: codec };
  const out = execFileSync(process.execPath, [join(folder, "codec.mjs")], { encoding: "utf8", env });
  return JSON.parse(out) as Report;
}

function hasWasm(): boolean {
  try {
    createRequire(createRequire(import.meta.url).resolve("sharp")).resolve("@img/sharp-wasm32/sharp.node");
    return true;
  } catch {
    return false;
  }
}

test("the native build is used unless another is asked for", () => {
  const report = run(inside, "");
  expect(report.error).toBeUndefined();
  expect(report.loaded.some((name) => name.includes("wasm32"))).toBe(false);
  expect(Object.keys(report.bytes)).toHaveLength(6);
});

describe.runIf(hasWasm())("WebAssembly", () => {
  test("takes the native build's place and writes the same bytes", () => {
    const wasm = run(inside, "wasm");
    expect(wasm.error).toBeUndefined();
    expect(wasm.loaded.some((name) => name.includes("sharp-wasm32"))).toBe(true);
    expect(wasm.loaded.some((name) => /sharp-linux|sharp-darwin|sharp-win32/.test(name))).toBe(false);
    expect(wasm.bytes).toEqual(run(inside, "native").bytes);
  });
});

test("where sharp is missing, one sentence says what to do", () => {
  expect(run(outside.path, "").error).toMatch(/^The image library sharp cannot be loaded \(.+\)\. Install .+\.$/);
  expect(run(outside.path, "wasm").error).toMatch(/^The image library sharp cannot be loaded/);
});
