/**
 * Every reason that the copy stand gives, brought about by a scan of the film model: a roll of good scans, then scans with
 * one fault each, of which none has a part in the verdict on the next. On the subject held out no limit was set.
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { english, formatMessage } from "../../../../extension/engine/messages.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";
import { measureArrival } from "../../../../extension/work/copy-stand/measure/measure-arrival.ts";
import { type RollView, rollView } from "../../../../extension/work/copy-stand/recipe/roll-view.ts";
import {
  expectation,
  type Judged,
  judgeArrival,
  judgeUnreadable,
  knownRollOf,
  type Session,
} from "../../../../extension/work/copy-stand/session.ts";
import type { ScanRequest } from "../../../witness/camera/camera.ts";
import { FAULTS } from "../../../witness/faults/faults.ts";
import type { Setup } from "../../../witness/camera/setup.ts";
import type { SubjectName } from "../../engine/survey/subjects/subjects.ts";
import { scanBytes, type StandScan } from "./stand-scans.ts";

const folder = mkdtempSync(join(tmpdir(), "matrix-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let view: RollView = {
  ...rollView(resolveRoll(parseRecipe('version: 1\nformat: "135"\n', { file: "m.roll.yaml", kind: "roll" })), {
    first: 12,
  }),
  frames: [],
};
let session: Session = [];
let minute = 0;

async function judged(scan: StandScan, test: boolean): Promise<Judged> {
  const name = `M${String(++minute).padStart(4, "0")}.dng`;
  writeFileSync(join(folder, name), scanBytes(scan, minute));
  const { frame, numbers } = expectation(view);
  const measured = await measureArrival(
    {
      path: join(folder, name),
      name,
      frame,
      numbers,
      roll: knownRollOf(session, view),
      positive: { folder, maxBytes: 1e8, key: `positive-${minute}`, long: 400 },
    },
    { report: () => {}, checkpoint: () => {} },
  );
  return judgeArrival(session, view, { name, stamp: name, measured, test });
}

async function keep(scan: StandScan): Promise<void> {
  const { scan: kept, role } = await judged(scan, false);
  session = [...session, kept];
  if (role.role === "frame")
    view = { ...view, frames: [...view.frames, { id: role.frame, scans: [kept.name], unused: [] }] };
}

beforeAll(async () => {
  view = { ...view, blank: "M0001.dng" };
  await keep({ subject: "blank" });
  for (const [k, subject] of (["portrait", "regatta", "workbench", "faces"] as const).entries())
    await keep({ subject, frame: String(12 + k), figures: FIGURES });
}, 600_000);

const setUp =
  (change: (setup: Setup) => Partial<Setup>) =>
  (r: ScanRequest): ScanRequest => ({ ...r, setup: { ...r.setup, ...change(r.setup) } });
const moved = (x: number, y: number) => (r: ScanRequest) => {
  const [left, top] = r.placement!.centre;
  return { ...r, placement: { ...r.placement!, centre: [left + x, top + y] as const } };
};
const leak = (side: "left" | "top") => setUp(() => ({ leaks: [{ side, strength: 0.12, reach: 0.045 }] }));

/** What is wrong, the scan, its word, the reason's code, and what the reason says. */
type Row = readonly [fault: string, scan: StandScan, word: "good" | "look" | "again", code?: string, says?: RegExp];

/** As tall as the margin of so small a film has room for. */
const FIGURES = 0.3;
const [LEFT, UP] = [-0.1, -0.1];

/** Rows whose scan shows the next frame of a subject. */
const onNext = (subject: SubjectName): readonly Row[] => {
  const next = { subject, frame: "16", figures: FIGURES } as const;
  return [
    ["nothing", next, "good"],
    ["out of focus", { ...next, fault: "unsharp" }, "again", "softer", /Out of focus/],
    ["cut off at the right", { ...next, change: moved(-LEFT, 0) }, "again", "cut-off", /at the right/],
    ["cut off at the top", { ...next, change: moved(0, UP) }, "again", "cut-off", /at the top/],
    ["drifted", { ...next, change: moved(-0.035, 0) }, "look", "displaced", /to the left/],
    ["wrong way round", { ...next, fault: "mirrored" }, "look", "wrong-way-round"],
    ["a picture missed", { ...next, frame: "17" }, "look", "picture-missed", /16/],
  ];
};

const MARKET = { subject: "market", frame: "16", figures: FIGURES } as const;
const PORTRAIT = { subject: "portrait", frame: "16", figures: FIGURES } as const;
const smallStop = (r: ScanRequest): ScanRequest => FAULTS.smallAperture(r, "light", 1, 3);
const OTHERS: readonly Row[] = [
  ["clipped", { ...MARKET, fault: "clipped" }, "again", "clipped"],
  ["too dark", { ...MARKET, fault: "underexposed" }, "again", "under-exposed"],
  ["soft corners", { ...PORTRAIT, fault: "softCorners" }, "look", "soft-corners"],
  // On one scan alone a tilt is seldom told from other blur; the survey tells it from several.
  ["tilted", { ...PORTRAIT, fault: "filmTilted" }, "again", "softer", /Out of focus/],
  ["shaken", { ...PORTRAIT, fault: "shaken" }, "again", "shaken"],
  ["flare", { ...MARKET, fault: "flare" }, "look", "flare"],
  ["a light leak at the left", { ...MARKET, change: leak("left") }, "again", "light-leak", /along the left/],
  ["a light leak at the top", { ...MARKET, change: leak("top") }, "again", "light-leak", /along the top/],
  ["dust", { ...PORTRAIT, fault: "dusty" }, "look", "dust", /\d+ specks/],
  ["another stop", { ...MARKET, change: smallStop }, "look", "set-up-changed", /f\/16/],
  ["the same picture again", { ...PORTRAIT, frame: "12" }, "look", "taken-twice"],
];

describe.each([
  ["tune: market", [...onNext("market"), ...OTHERS]],
  ["held out: bracken", onNext("bracken")],
] as const)("each fault alone, after a roll of good scans; %s", (_, rows) => {
  it.each(rows.map(([fault, ...row]) => ({ fault, row })))(
    "$fault",
    async ({ row: [scan, word, code, says] }) => {
      // A test shot is no retake of anything.
      const { verdict } = (await judged(scan, code !== "taken-twice")).scan;
      expect(verdict.word).toBe(word);
      const texts = verdict.reasons.map((one) => `${one.code}: ${formatMessage(one.message, english)}`);
      // A good scan has no reason at all.
      const expected = code === undefined ? /^$/ : new RegExp(`(^|\n)${code}: [^\n]*(${says?.source ?? ""})`);
      expect(texts.join("\n")).toMatch(expected);
      expect(verdict.reasons.every(({ remedy }) => formatMessage(remedy, english) !== "")).toBe(true);
    },
    600_000,
  );
});

describe("what is no picture", () => {
  it("sensor dust is found on the blank", async () => {
    const { scan } = await judged({ subject: "blank", fault: "dustySensor" }, true);
    expect(scan.kind === "blank" || scan.light !== undefined).toBe(true);
    const blank = judgeArrival(
      [],
      { ...view, frames: [], blank: undefined, namedBlank: scan.name },
      {
        name: scan.name,
        stamp: scan.name,
        measured: { info: scan.firstPass!.info, firstPass: scan.firstPass!, kind: "blank", light: scan.light! },
      },
    );
    expect(blank.scan.verdict.reasons.map(({ code }) => code)).toContain("sensor-dust");
  }, 600_000);

  it("a file without its end is unreadable", () => {
    const { scan } = judgeUnreadable("M9999.dng", "stamp", "M9999.dng has stopped growing and its end is missing.");
    expect([scan.verdict.word, scan.verdict.reasons[0].code]).toEqual(["again", "unreadable"]);
  });
});
