import { describe, expect, it } from "vitest";
import type { Finding, Place, ScanReading, Speck, SurveyedRoll } from "../../../../extension/engine/survey/types.ts";
import { findingFixes } from "../../../../extension/recipe/language/finding-fixes.ts";
import {
  countByFrame,
  findingMessage,
  placeFailures,
  placeFindings,
  proposedSpots,
  type Surveyed,
} from "../../../../extension/recipe/language/findings.ts";
import { english } from "../../../../extension/recipe/language/types.ts";
import { finding } from "./finding.ts";
import { covered, edited, open } from "./memory.ts";
import { files, roll } from "./recipes.ts";

const speck = (x: number, y: number): Speck => ({
  x,
  y,
  radius: 0.002,
  elongation: 1,
  opacity: 0.8,
  logOdds: 1,
  spots: [[x, y, 0.002]],
});

const blank = { name: "LIGHT.dng" } as SurveyedRoll["blank"];
const reading = (frame: string, more: Partial<ScanReading> = {}): ScanReading =>
  ({ name: `H00${frame}.dng`, frame, specks: [], ...more }) as unknown as ScanReading;

const paths = Object.fromEntries(
  ["LIGHT.dng", "H0001.dng", "H0002.dng", "H0003.dng"].map((name) => [name, `/w/scans/${name}`]),
);

/** A survey of the small roll. */
const surveyed = (findings: readonly Finding[], more: Partial<Surveyed> = {}): Surveyed => ({
  roll: { film: "colour-negative", flare: [0, 0, 0], scans: [], blank },
  findings,
  dust: {},
  sensorDust: [],
  failures: [],
  paths,
  mirrored: [],
  ...more,
});

const inFrame = (frame: string): Place => ({ scan: `H00${frame}.dng`, frame });

describe("places of findings", () => {
  /** Where some findings stand in a text: the text that is underlined, and its line. */
  const placed = async (
    findings: readonly Finding[],
    text = roll,
    more: Partial<Surveyed> = {},
    changed?: (path: string) => boolean,
  ) => {
    const { reading: read } = await open(text, files);
    return placeFindings(read, surveyed(findings, more), changed).map(({ frame, range }) => ({
      frame,
      text: covered(read.document.text, range),
      line: range.start.line + 1,
    }));
  };

  it("are the scan's name in its frame, the blank, and the folder of scans for what is about the roll", async () => {
    expect(
      await placed(
        [finding("dust", inFrame("02")), finding("sensor-dust", { scan: "LIGHT.dng" }), finding("x", {})],
        roll,
        {
          dust: { "02": [speck(0.5, 0.5)] },
          sensorDust: [speck(0.1, 0.1)],
        },
      ),
    ).toEqual([
      { frame: "02", text: "H0002.dng", line: 15 },
      { frame: undefined, text: "LIGHT.dng", line: 6 },
      { frame: undefined, text: "scans", line: 4 },
    ]);
  });

  it("are the first line where no folder is named, and the frame's id where no scan is", async () => {
    const bare = `version: 1\nframes:\n  "01":\n    scan: H0001.dng\n`;
    const at = { "H0001.dng": "/w/H0001.dng" };
    const withoutBlank = { roll: { film: "slide", flare: [0, 0, 0], scans: [] } as SurveyedRoll, paths: at };
    expect(await placed([finding("x", {}), finding("y", { frame: "01" })], bare, withoutBlank)).toEqual([
      { frame: undefined, text: "version: 1", line: 1 },
      { frame: "01", text: "01", line: 3 },
    ]);
  });

  it("lie within quotes, and on the one of several scans", async () => {
    const several = roll.replace("scan: H0002.dng", 'scans: [H0002.dng, "H0003.dng"]').replace(/ {2}"03":[\s\S]*$/, "");
    expect(await placed([finding("unsharp", { scan: "H0003.dng", frame: "02" })], several)).toEqual([
      { frame: "02", text: "H0003.dng", line: 15 },
    ]);
  });

  it("follow the frame when lines move, and when frames change their order", async () => {
    const moved = roll.replace("frames:\n", "# a remark\n\n\nframes:\n");
    expect(await placed([finding("unsharp", inFrame("02"))], moved)).toEqual([
      { frame: "02", text: "H0002.dng", line: 18 },
    ]);
    const swapped = roll.replace(/( {2}"02":\n.*\n)([\s\S]*)$/, "$2$1");
    expect((await placed([finding("unsharp", inFrame("02"))], swapped))[0]).toMatchObject({
      text: "H0002.dng",
      line: 19,
    });
  });

  it("are gone with the frame, with another scan, with a scan in another folder, and for a frame that is skipped", async () => {
    const found = [finding("unsharp", inFrame("02"))];
    expect(await placed(found, roll.replace(/ {2}"02":\n.*\n/, ""))).toEqual([]);
    expect(await placed(found, roll.replace("H0002.dng", "H0004.dng"))).toEqual([]);
    expect(await placed(found, roll.replace("scans: scans", "scans: others"))).toEqual([]);
    expect(await placed(found, roll.replace("scan: H0002.dng", "scan: H0002.dng\n    skip: true"))).toEqual([]);
  });

  it("are gone with a scan whose file has changed, and all with another blank", async () => {
    const found = [finding("unsharp", inFrame("01")), finding("unsharp", inFrame("02")), finding("x", {})];
    const changed = (name: string) => (path: string) => path === `/w/scans/${name}`;
    expect((await placed(found, roll, {}, changed("H0002.dng"))).map(({ frame }) => frame)).toEqual(["01", undefined]);
    expect(await placed(found, roll, {}, changed("LIGHT.dng"))).toEqual([]);
    expect(await placed(found, roll.replace("blank: LIGHT.dng", "blank: H0004.dng"))).toEqual([]);
  });

  it("are gone once the recipe fixes them, and back when it no longer does", async () => {
    const dust = { dust: { "01": [speck(0.5, 0.5), speck(0.2, 0.2)] }, sensorDust: [speck(0.1, 0.1)] };
    const heal = (spots: string) => roll.replace("scan: H0001.dng", `scan: H0001.dng\n    spots: ${spots}`);
    const dusty = [finding("dust", inFrame("01"))];
    expect(await placed(dusty, roll, dust)).toHaveLength(1);
    expect(await placed(dusty, heal("[[0.5, 0.5, 0.003]]"), dust)).toHaveLength(1);
    expect(await placed(dusty, heal("[[0.5, 0.5, 0.003], [0.2, 0.2, 0.003]]"), dust)).toEqual([]);
    const dirty = [finding("sensor-dust", { scan: "LIGHT.dng" })];
    expect(await placed(dirty, roll, dust)).toHaveLength(1);
    const lit = roll.replace("blank: LIGHT.dng", "blank: LIGHT.dng\n  spots: [[0.1, 0.1, 0.003]]");
    expect(await placed(dirty, lit, dust)).toEqual([]);
    const turned = [finding("mirrored", inFrame("01"))];
    const mirror = roll.replace("scan: H0001.dng", "scan: H0001.dng\n    mirror: true");
    expect(await placed(turned)).toHaveLength(1);
    expect(await placed(turned, mirror)).toEqual([]);
    expect(await placed(turned, mirror, { mirrored: ["01"] })).toHaveLength(1);
    const flare = [finding("flare", inFrame("01"))];
    expect(await placed(flare)).toHaveLength(1);
    expect(await placed(flare, roll.replace("blank: LIGHT.dng", "blank: LIGHT.dng\n  flare: 0.02"))).toEqual([]);
  });

  it("of scans that could not be surveyed are the frame's, unless a problem says already that the file is missing", async () => {
    const faults = [
      { frame: "02", message: "H0002.dng is damaged." },
      { frame: "03", message: "H0003.dng is not there." },
      { message: "LIGHT.dng is black." },
      { frame: "99", message: "A frame of old." },
    ];
    const { "scans/H0003.dng": _gone, ...others } = files;
    const { reading: read } = await open(roll, others);
    const found = placeFailures(read, surveyed([], { failures: faults }));
    expect(found.map(({ frame, range }) => [frame, covered(roll, range)])).toEqual([
      ["02", "H0002.dng"],
      [undefined, "LIGHT.dng"],
    ]);
  });
});

describe("spots that are proposed", () => {
  const more = {
    roll: { film: "colour-negative", flare: [0, 0, 0], scans: [reading("01"), reading("02")], blank } as SurveyedRoll,
    dust: { "01": [speck(0.5, 0.5), speck(0.2, 0.2)] },
    sensorDust: [speck(0.1, 0.1)],
  };
  const proposed = async (frame: string, text = roll, changed?: (path: string) => boolean) =>
    proposedSpots((await open(text, files)).reading, surveyed([], more), frame, changed);

  it("are the frame's dust and the roll's sensor dust, less what the recipe heals", async () => {
    expect(await proposed("01")).toEqual({
      film: [
        [0.5, 0.5, 0.002],
        [0.2, 0.2, 0.002],
      ],
      light: [[0.1, 0.1, 0.002]],
    });
    const healed = roll.replace("scan: H0001.dng", "scan: H0001.dng\n    spots: [[0.5, 0.5, 0.003]]");
    expect((await proposed("01", healed))?.film).toEqual([[0.2, 0.2, 0.002]]);
    expect((await proposed("02"))?.film).toEqual([]);
  });

  it("are not there for frames that were not surveyed, nor for scans that are others now", async () => {
    expect(await proposed("03")).toBeUndefined();
    expect(await proposed("99")).toBeUndefined();
    expect(await proposed("01", roll.replace("H0001.dng", "H0004.dng"))).toBeUndefined();
    expect(await proposed("01", roll, (path) => path.endsWith("H0001.dng"))).toBeUndefined();
  });
});

describe("findings in words", () => {
  it("give the number, the unit, the limit and the remedy", () => {
    expect(findingMessage(finding("dust", {}), english)).toBe(
      "Something is too much. Measured 23, limit 18 specks on a frame. Blow it off.",
    );
  });

  it("are counted by frame", async () => {
    const { reading: read } = await open(roll, files);
    const all = surveyed([
      finding("unsharp", inFrame("01")),
      finding("shaken", inFrame("01")),
      finding("unsharp", inFrame("03")),
      finding("x", {}),
    ]);
    expect([...countByFrame(placeFindings(read, all))]).toEqual([
      ["01", 2],
      ["03", 1],
    ]);
  });
});

describe("remedies that are a change of the text", () => {
  const remedies = async (found: Finding, more: Partial<Surveyed>, text = roll) => {
    const { reading: read } = await open(text, files);
    const all = surveyed([found], more);
    const [at] = placeFindings(read, all);
    return findingFixes(read, all, at!, english).map(({ title, edits }) => ({
      title,
      lines: added(text, edited(text, edits.edits)),
    }));
  };
  /** Lines of the later text that the earlier one has not. */
  const added = (before: string, after: string): string[] => {
    const known = before.split("\n");
    return after.split("\n").filter((line) => !known.includes(line));
  };

  it("heal dust on one frame or on all, beside the spots that are there", async () => {
    const text = roll.replace("scan: H0001.dng", "scan: H0001.dng\n    spots: [[0.9, 0.5, 0.01]]");
    const dust = { "01": [speck(0.5, 0.5), speck(0.9, 0.501)], "03": [speck(0.3, 0.4)] };
    expect(await remedies(finding("dust", inFrame("01")), { dust }, text)).toEqual([
      {
        title: "Heal the dust on frame 01: 1 spot",
        lines: ["    spots: [[0.9, 0.5, 0.01], [0.5, 0.5, 0.002]]"],
      },
      {
        title: "Heal the dust on every frame: 2 spots",
        lines: ["    spots: [[0.9, 0.5, 0.01], [0.5, 0.5, 0.002]]", "    spots: [[0.3, 0.4, 0.002]]"],
      },
    ]);
  });

  it("heal sensor dust for the whole roll", async () => {
    const sensorDust = [speck(0.1, 0.1), speck(0.2, 0.1)];
    expect(await remedies(finding("sensor-dust", { scan: "LIGHT.dng" }), { sensorDust })).toEqual([
      {
        title: "Heal the sensor dust in every frame: 2 spots",
        lines: ["  spots: [[0.1, 0.1, 0.002], [0.2, 0.1, 0.002]]"],
      },
    ]);
  });

  it("mirror one frame, or every frame where the whole roll lies the wrong way round", async () => {
    const scans = (...agreement: number[]) => ({
      roll: {
        film: "colour-negative",
        flare: [0, 0, 0],
        blank,
        scans: agreement.map((lettering, i) => reading(`0${i + 1}`, { lettering })),
      } as SurveyedRoll,
    });
    const found = finding("mirrored", inFrame("02"));
    expect(await remedies(found, scans(0.4, -0.3, 0.4))).toEqual([
      { title: "Set mirror: true on frame 02", lines: ["    mirror: true"] },
    ]);
    expect(await remedies(found, scans(-0.4, -0.3, -0.4))).toEqual([
      { title: "Set mirror: true on every frame", lines: ["    mirror: true", "    mirror: true", "    mirror: true"] },
    ]);
  });

  it("take off the flare that was measured, with what was taken off before", async () => {
    // T = (s − f) / (1 − f): a holder at 0.02 after 0.01 were taken off shows 0.01 + 0.02 · 0.99 of the light.
    const known = roll.replace("blank: LIGHT.dng", "blank: LIGHT.dng\n  flare: 0.01");
    const lit = {
      film: "colour-negative",
      flare: [0.01, 0.01, 0.01],
      blank,
      scans: [reading("01", { mask: [0.02, 0.02, 0.03] }), reading("02", { mask: [0.02, 0.02, 0.03] })],
    } as unknown as SurveyedRoll;
    expect(await remedies(finding("flare", inFrame("01")), { roll: lit }, known)).toEqual([
      {
        title: "Set light.flare to what was measured: [0.0298, 0.0298, 0.0397]",
        lines: ["  flare: [0.0298, 0.0298, 0.0397]"],
      },
    ]);
  });

  it("are offered for nothing else", async () => {
    expect(await remedies(finding("unsharp", inFrame("01")), {})).toEqual([]);
    expect(await remedies(finding("constructor", inFrame("01")), {})).toEqual([]);
  });
});
