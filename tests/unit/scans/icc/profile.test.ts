import { describe, expect, test } from "vitest";
import { printerProfile } from "../../../../extension/scans/icc/profile.ts";
import { withTransform } from "../../../../extension/scans/icc/transform.ts";
import { iccProfile } from "../../../../extension/scans/output/icc.ts";

const good = iccProfile("adobe", 3);
const changed = (change: (bytes: Uint8Array, view: DataView) => void): Uint8Array => {
  const bytes = good.slice();
  change(bytes, new DataView(bytes.buffer));
  return bytes;
};
const put = (bytes: Uint8Array, at: number, text: string): void => {
  for (let i = 0; i < text.length; i++) bytes[at + i] = text.charCodeAt(i);
};

describe("a profile that cannot be a printer's", () => {
  test.each([
    ["of a camera", changed((b) => put(b, 12, "scnr")), /a scanner or camera, not of a printer/],
    ["of a link", changed((b) => put(b, 12, "link")), /link between two devices/],
    ["of an odd class", changed((b) => put(b, 12, "x\u0001yz")), /unknown kind of device \("x\?yz"\)/],
    ["of six inks", changed((b) => put(b, 16, "6CLR")), /colours "6CLR"/],
    ["of Lab", changed((b) => put(b, 16, "Lab ")), /colours "Lab"/],
    ["cut off", good.subarray(0, 300), /incomplete: it should have \d+ bytes and has 300/],
    ["empty", new Uint8Array(0), /not an ICC profile/],
    ["another kind of file", new TextEncoder().encode("version: 1\n".repeat(40)), /not an ICC profile/],
    [
      "with a hostile count of tags",
      changed((_, v) => v.setUint32(128, 0xffffffff)),
      /its table states 4294967295 tags/,
    ],
    ["with a tag outside", changed((_, v) => v.setUint32(132 + 8, 0xfffffff0)), /a tag lies outside/],
    ["of a hostile size", new Uint8Array(16_000_001), /longer than 16 MB/],
  ])("%s is refused", (_, bytes, message) => {
    const read = () => printerProfile(bytes, "/rolls/profiles/matte.icc");
    expect(read).toThrow(message);
    expect(read).toThrow(expect.objectContaining({ code: "profile", remedy: expect.stringMatching(/\.$/) as string }));
  });

  test("a grey printer gets the lightness of a colour", async () => {
    const grey = iccProfile("adobe", 1).slice();
    put(grey, 12, "prtr");
    const { bytes, channels, space } = printerProfile(grey, "grey.icc");
    expect([channels, space]).toEqual([1, "GRAY"]);
    const out = new Uint16Array(3);
    const [from, to] = [{ profile: good, channels: 3 } as const, { profile: bytes, channels }];
    await withTransform({ from, to, intent: "perceptual", compensate: false }, (convert) =>
      convert(Uint16Array.from([0, 0, 0, 30000, 30000, 30000, 65535, 65535, 65535]), out),
    );
    // One curve on both sides: a grey keeps its value.
    for (const [i, value] of [0, 30000, 65535].entries()) expect(Math.abs(out[i]! - value)).toBeLessThan(200);
  });

  test("whatever is damaged inside it gives an error, and the engine goes on with the next", async () => {
    const lab = async (profile: Uint8Array): Promise<readonly number[]> => {
      const out = new Float32Array(3);
      const from = { profile: printerProfile(profile, "p.icc").bytes, channels: 3 } as const;
      const options = { from, to: "lab", intent: "relative-colorimetric", compensate: false } as const;
      await withTransform(options, (convert) => convert(new Uint16Array([65535, 65535, 65535]), out));
      return [...out];
    };
    const failures: unknown[] = [];
    for (let k = 0; k < 120; k++) {
      // Every tag in turn loses its kind, or gets a length that cannot be.
      const tag = k % 9;
      const bytes = changed((b, v) => {
        const at = v.getUint32(132 + 12 * tag + 4);
        if (k % 2) put(b, at, "zzzz");
        else v.setUint32(at + 8, 0xfffffff0 - k);
      });
      await lab(bytes).catch((error: unknown) => failures.push(error));
    }
    expect(failures.length).toBeGreaterThan(40);
    for (const error of failures) expect(error).toMatchObject({ code: "profile" });
    const [l, a, b] = await lab(good);
    expect(l).toBeCloseTo(100, 1);
    expect(Math.hypot(a!, b!)).toBeLessThan(0.1);
  });
});
