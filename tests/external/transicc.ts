/** Colours through transicc of Debian's liblcms2-utils, a program of its own: another build and version of the engine. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { RenderingIntent } from "../../extension/scans/icc/transform.ts";

/** In the order of their numbers, ISO 15076-1, Table 23. */
export const INTENTS: readonly RenderingIntent[] = [
  "perceptual",
  "relative-colorimetric",
  "saturation",
  "absolute-colorimetric",
];

export const hasTransicc = (() => {
  try {
    execFileSync("transicc", ["--help"], { stdio: "ignore" });
  } catch (error) {
    return (error as { code?: unknown }).code !== "ENOENT";
  }
  return true;
})();

/** The program keeps values beyond the device's range, which no file holds. */
const clamp01 = (v: number): number => Math.max(0, Math.min(1, v));

export interface Way {
  readonly from: Uint8Array;
  readonly to: Uint8Array;
  readonly intent: RenderingIntent;
  readonly compensate: boolean;
}

/** Device values 0 … 1, ink 0 none, of colours that are given so. */
export function transicc({ from, to, intent, compensate }: Way, colours: readonly (readonly number[])[]): number[][] {
  const folder = mkdtempSync(join(tmpdir(), "transicc-"));
  try {
    const [source, target] = [join(folder, "from.icc"), join(folder, "to.icc")];
    writeFileSync(source, from);
    writeFileSync(target, to);
    const way = [`-i${source}`, `-o${target}`, `-t${INTENTS.indexOf(intent)}`, "-n", "-c0"];
    const [scaleIn, scaleOut] = [from, to].map((profile) => (inkOf(profile) ? 100 : 255)) as [number, number];
    const lines = colours.map((colour) => colour.map((v) => (scaleIn * v).toFixed(6)).join(" "));
    const text = execFileSync("transicc", compensate ? [...way, "-b"] : way, {
      input: `${lines.join("\n")}\n`,
      encoding: "utf8",
      maxBuffer: 2 ** 26,
      stdio: ["pipe", "pipe", "ignore"],
    });
    const rows = text.split("\n").map((line) => line.trim().split(/\s+/).map(Number));
    return rows
      .filter((row) => row.length > 1 && row.every(Number.isFinite))
      .map((row) => row.map((v) => clamp01(v / scaleOut)));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const inkOf = (profile: Uint8Array): boolean => String.fromCharCode(...profile.subarray(16, 20)) === "CMYK";
