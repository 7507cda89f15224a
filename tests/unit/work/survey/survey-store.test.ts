import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { folderCache } from "../../../../extension/scans/files/cache.ts";
import type { SurveyReport } from "../../../../extension/work/survey/survey-roll.ts";
import { type KeptSurvey, surveyStore } from "../../../../extension/work/survey/survey-store.ts";

const survey: KeptSurvey = {
  report: {
    roll: { film: "colour-negative", flare: [0, 0, 0], scans: [] },
    findings: [],
    dust: {},
    sensorDust: [],
    views: { "H0001.dng": { width: 2, height: 1, bytes: Uint8Array.of(1, 2, 3) } },
    failures: [{ frame: "03", message: "H0003.dng ends too early." }],
    paths: { "H0001.dng": "/w/H0001.dng" },
    mirrored: ["02"],
  } as SurveyReport,
  stamps: { "/w/H0001.dng": "12 34" },
};

describe("surveys on disk", () => {
  const newFolder = (): string => {
    const folder = mkdtempSync(join(tmpdir(), "surveys-"));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    return folder;
  };
  const open = (version = "1.0.0", folder = newFolder()) => ({
    folder,
    store: surveyStore(folderCache(folder, 1e6), version),
  });

  it("come back as they were, pictures and all", async () => {
    const { store, folder } = open();
    expect(await store.read("/w/harbour.roll.yaml")).toBeUndefined();
    await store.write("/w/harbour.roll.yaml", survey);
    expect(await open("1.0.0", folder).store.read("/w/harbour.roll.yaml")).toEqual(survey);
  });

  it("are another roll's or another version's no more than they are damaged", async () => {
    const { store, folder } = open();
    await store.write("/w/harbour.roll.yaml", survey);
    expect(await store.read("/w/breakwater.roll.yaml")).toBeUndefined();
    expect(await open("1.0.1", folder).store.read("/w/harbour.roll.yaml")).toBeUndefined();
    const [name] = readdirSync(folder);
    const path = join(folder, name!);
    const bytes = readFileSync(path);
    const flipped = [0, 40, bytes.length >> 1, bytes.length - 1].map((at) => {
      const copy = Buffer.from(bytes);
      copy[at] ^= 1;
      return copy;
    });
    for (const damaged of [bytes.subarray(0, bytes.length >> 1), Buffer.from("{}"), Buffer.alloc(0), ...flipped]) {
      writeFileSync(path, damaged);
      expect(await store.read("/w/harbour.roll.yaml")).toBeUndefined();
    }
  });
});
