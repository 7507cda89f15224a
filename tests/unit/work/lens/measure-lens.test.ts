/** The lens from the scans to the finished picture: measured by the command, written as one edit, rendered, previewed. */
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { densityOfCode } from "../../../../extension/engine/plan/log-code.ts";
import { linearProxy } from "../../../../extension/work/frame/preview-proxy.ts";
import { readLight } from "../../../../extension/work/frame/read-light.ts";
import { asJson, rollbook } from "../../cli/command.ts";
import { HEIGHT, ROLL, WIDTH, writeLensRoll } from "./lens-roll.ts";

const SUBJECTS = ["market", "pebbles", "workbench", "regatta"] as const;
const LENS = { red: [0.0018, 0.0014], blue: [-0.0014, -0.0012] } as const;
const UNIT = Math.hypot(WIDTH, HEIGHT) / 2;

interface Measured {
  readonly lateral: Record<"red" | "blue", { readonly shift: number; readonly error: number }> & {
    readonly value: { readonly red: [number, number]; readonly blue: [number, number] };
    readonly sure: boolean;
  };
  readonly written: boolean;
}

let folder = "";
let clean = "";
beforeAll(() => {
  folder = writeLensRoll(SUBJECTS, LENS, 5200);
  clean = writeLensRoll(SUBJECTS, undefined, 5200);
});
afterAll(() => [folder, clean].forEach((one) => rmSync(one, { recursive: true, force: true })));

const picture = async (roll: string): Promise<Buffer> => {
  const out = join(roll, `out-${Math.random()}`);
  expect((await rollbook(["render", ROLL, "-o", out, "--frames", "1"], { cwd: roll })).code).toBe(0);
  return await sharp(join(out, "archive", "r-01.tif"))
    .raw()
    .toBuffer();
};

/** Mean absolute difference of a channel, in codes of 255. */
function apart(a: Buffer, b: Buffer, channel: number): number {
  let sum = 0;
  for (let i = channel; i < a.length; i += 3) sum += Math.abs(a[i] - b[i]);
  return sum / (a.length / 3);
}

describe("rollbook lens", () => {
  it("measures lateral colour to a tenth of a pixel, and writes nothing unless it is told to", async () => {
    const before = readFileSync(join(folder, ROLL), "utf8");
    const { json, code } = await asJson<Measured>(["lens", ROLL], { cwd: folder });
    expect(code).toBe(0);
    for (const colour of ["red", "blue"] as const) {
      const truth = UNIT * (LENS[colour][0] + LENS[colour][1]);
      expect(Math.abs(json.lateral[colour].shift - truth)).toBeLessThanOrEqual(0.1);
    }
    expect(json).toMatchObject({ written: false, lateral: { sure: true } });
    expect(readFileSync(join(folder, ROLL), "utf8")).toBe(before);
  });

  it("writes light.lens beside the other keys; the picture is then as through a lens without faults", async () => {
    const faulty = await picture(folder);
    const truth = await picture(clean);
    const before = readFileSync(join(folder, ROLL), "utf8");
    const { json } = await asJson<Measured>(["lens", ROLL, "--write"], { cwd: folder });
    expect(json.written).toBe(true);
    const text = readFileSync(join(folder, ROLL), "utf8");
    expect(text).toContain("lateral: { red: [0.00");
    expect(
      text
        .split("\n")
        .filter((line) => !before.includes(line))
        .join("\n"),
    ).not.toContain("S1.dng");
    const corrected = await picture(folder);
    expect(corrected.length).toBe(truth.length);
    // What is left is the noise of two exposures, and grain.
    for (const channel of [0, 2])
      expect(apart(corrected, truth, channel)).toBeLessThan(0.6 * apart(faulty, truth, channel));
    // Measuring again finds the same: what the recipe corrects makes no difference.
    const again = await asJson<Measured>(["lens", ROLL], { cwd: folder });
    expect(again.json.lateral.value).toEqual(json.lateral.value);
  });

  it("is no finding of the survey any more once it is corrected", async () => {
    const codes = async (): Promise<string[]> => {
      const { json } = await asJson<{ findings: { code: string }[] }>(["survey", ROLL], { cwd: folder });
      return json.findings.map(({ code }) => code);
    };
    expect(await codes()).not.toContain("lateral-colour");
    const path = join(folder, ROLL);
    const corrected = readFileSync(path, "utf8");
    writeFileSync(path, corrected.replace(/\n *lens:[^\n]*(\n {4,}[^\n]*)*/, "").replace(/, lens: .*(?= }\n)/, ""));
    expect(readFileSync(path, "utf8")).not.toContain("lens");
    expect(await codes()).toContain("lateral-colour");
    writeFileSync(path, corrected);
  });
});

describe("distortion", () => {
  it("is measured, written and corrected with the rest, and the recipe's area then fits the picture", async () => {
    const bent = writeLensRoll(["market", "lace", "regatta", "pebbles"], { distortion: [-0.02, 0] }, 5300);
    interface Report {
      readonly distortion: { readonly corner: number; readonly sure: boolean };
      readonly joins: string[];
    }
    const { json } = await asJson<Report>(["lens", ROLL, "--write"], { cwd: bent });
    expect(Math.abs(json.distortion.corner + 0.02)).toBeLessThan(0.0007);
    expect(json).toMatchObject({ distortion: { sure: true }, joins: [] });
    expect(readFileSync(join(bent, ROLL), "utf8")).toMatch(/distortion: \[-0\.0/);
    // The picture as through a lens without faults, not moved: the recipe's area is that of the film.
    const [corrected, truth] = [await picture(bent), await picture(clean)];
    writeFileSync(
      join(bent, ROLL),
      readFileSync(join(bent, ROLL), "utf8").replace(/distortion: \[[^\]]*\]/, "distortion: [0]"),
    );
    const faulty = await picture(bent);
    expect(apart(corrected, truth, 1)).toBeLessThan(0.4 * apart(faulty, truth, 1));
    rmSync(bent, { recursive: true, force: true });
  });
});

describe("previews and full pictures", () => {
  const context = { report() {}, checkpoint() {} };
  const lens = { lateral: LENS, distortion: [0.02, -0.004] } as const;
  const path = (name: string): string => join(folder, "scans", name);

  it("show the same place at every size, and the bare light's field moves with the scans", async () => {
    const { field, exposure } = await readLight({ path: path("LIGHT.dng"), field: true, lens });
    const light = { field, flare: [0.002, 0.002, 0.0025], reference: exposure, lens } as const;
    const cache = { folder: join(folder, "cache"), maxBytes: 50e6 };
    const of = async (want: Parameters<typeof linearProxy>[0]["want"], l = light as never) =>
      await linearProxy({ path: path("S1.dng"), light: l, spots: [], cache, want }, context);
    const small = await of("picture");
    const whole = await of({ left: 0, top: 0, width: 1, height: 1 });
    const plain = await of("picture", { ...light, lens: undefined } as never);
    const codes = ({ codes: bytes }: { codes: Uint8Array }) =>
      new Uint16Array(bytes.buffer, bytes.byteOffset, bytes.length / 2);
    const times = whole.width / small.width;
    expect(times).toBe(2);
    const [a, b, c] = [codes(small), codes(whole), codes(plain)];
    let [near, far, n] = [0, 0, 0];
    for (let y = 8; y < small.height - 8; y++)
      for (let x = 8; x < small.width - 8; x++)
        for (const channel of [0, 1, 2]) {
          let mean = 0;
          for (let k = 0; k < 4; k++)
            mean += densityOfCode(b[((2 * y + (k >> 1)) * whole.width + 2 * x + (k & 1)) * 3 + channel]) / 4;
          const i = (y * small.width + x) * 3 + channel;
          near += Math.abs(densityOfCode(a[i]) - mean);
          far += Math.abs(densityOfCode(c[i]) - mean);
          n++;
        }
    // Half size averages other sites than demosaicing; what is left is grain.
    expect(near / n).toBeLessThan(0.02);
    expect(near).toBeLessThan(0.4 * far);
  });
});
