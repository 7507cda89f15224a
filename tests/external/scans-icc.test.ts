// Our ICC profiles, read by a small reader of the test's own from ICC.1:2010, against a colour library's spaces.
import Color from "colorjs.io";
import { describe, expect, test } from "vitest";
import type { OutputSpace } from "../../extension/engine/types.ts";
import { iccProfile } from "../../extension/scans/output/icc.ts";

const SPACES: [OutputSpace, colorjs: string][] = [
  ["srgb", "srgb"],
  ["p3", "p3"],
  ["adobe", "a98rgb"],
  ["romm", "prophoto"],
];

interface Profile {
  readonly view: DataView;
  readonly tags: ReadonlyMap<string, number>;
}

function parse(bytes: Uint8Array): Profile {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tags = new Map<string, number>();
  for (let i = 0; i < view.getUint32(128); i++) tags.set(letters(view, 132 + 12 * i), view.getUint32(136 + 12 * i));
  return { view, tags };
}

const letters = (view: DataView, at: number) => String.fromCharCode(...[0, 1, 2, 3].map((i) => view.getUint8(at + i)));
const fixed = (view: DataView, at: number) => view.getInt32(at) / 65536;
const triple = ({ view, tags }: Profile, name: string) => [8, 12, 16].map((at) => fixed(view, tags.get(name)! + at));

/** §10.16: type 0 is a power, type 3 a power above a knee and a line below. */
function curve({ view, tags }: Profile, name: string): (v: number) => number {
  const at = tags.get(name)!;
  expect(letters(view, at)).toBe("para");
  const parameter = (i: number) => fixed(view, at + 12 + 4 * i);
  const g = parameter(0);
  if (view.getUint16(at + 8) === 0) return (v) => v ** g;
  expect(view.getUint16(at + 8)).toBe(3);
  const [a, b, c, d] = [1, 2, 3, 4].map(parameter);
  return (v) => (v >= d ? (a * v + b) ** g : c * v);
}

const COLOURS = [
  [1, 1, 1],
  [0.5, 0.5, 0.5],
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [0.8, 0.4, 0.1],
  [0.02, 0.6, 0.9],
  [0.01, 0.02, 0.03],
];

describe.each(SPACES)("%s", (space, name) => {
  const profile = parse(iccProfile(space, 3));

  test("header", () => {
    const { view } = profile;
    expect(view.getUint32(0)).toBe(view.byteLength);
    expect(letters(view, 12) + letters(view, 16) + letters(view, 20)).toBe("mntrRGB XYZ ");
    expect(letters(view, 36)).toBe("acsp");
    expect(view.getUint8(8)).toBe(4);
    expect([68, 72, 76].map((at) => view.getInt32(at))).toEqual([0xf6d6, 0x10000, 0xd32d]); // §7.2.16
    for (const required of ["desc", "cprt", "wtpt", "chad"]) expect(profile.tags.has(required)).toBe(true); // §8.2, 8.3
    for (const at of profile.tags.values()) expect(at % 4).toBe(0);
  });

  test("device white is the connection space's white to the last bit", () => {
    const columns = ["rXYZ", "gXYZ", "bXYZ"].map((tag) => triple(profile, tag));
    [0.9642, 1, 0.8249].forEach((white, row) => {
      const sum = columns.reduce((total, column) => total + column[row], 0);
      expect(Math.abs(sum - white)).toBeLessThan(2.5 / 65536);
    });
  });

  test("colours become the same XYZ (D50) as in colorjs.io", () => {
    const curves = ["rTRC", "gTRC", "bTRC"].map((tag) => curve(profile, tag));
    const columns = ["rXYZ", "gXYZ", "bXYZ"].map((tag) => triple(profile, tag));
    for (const colour of COLOURS) {
      const linear = colour.map((v, c) => curves[c](v));
      const xyz = [0, 1, 2].map((row) => linear.reduce((sum, v, c) => sum + v * columns[c][row], 0));
      const wanted = new Color(name, colour as [number, number, number]).to("xyz-d50").coords;
      xyz.forEach((v, i) => expect(Math.abs(v - wanted[i]!)).toBeLessThan(0.0003));
    }
  });

  test("the grey profile has the same curve", () => {
    const grey = parse(iccProfile(space, 1));
    expect(letters(grey.view, 16)).toBe("GRAY");
    for (const v of [0, 0.01, 0.2, 0.5, 1]) expect(curve(grey, "kTRC")(v)).toBe(curve(profile, "gTRC")(v));
  });
});
