import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { NONE_DISMISSED, withoutDismissed, withDismissed } from "../../../../extension/recipe/survey/dismissed.ts";
import { dismissedStore } from "../../../../extension/work/survey/dismissed-store.ts";

const ROLL = "/w/harbour.roll.yaml";
const scan = { scan: "/w/scans/H0001.dng" };

describe("what was dismissed", () => {
  const newFolder = (): string => {
    const folder = mkdtempSync(join(tmpdir(), "dismissed-"));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    return folder;
  };
  const open = (folder = newFolder()) => ({ folder, store: dismissedStore(folder) });

  it("is kept for the roll, for another window and the next day", async () => {
    const { store, folder } = open();
    expect(await store.read(ROLL)).toEqual(NONE_DISMISSED);
    const now = await store.change(ROLL, (before) => withDismissed(before, scan, [0.3, 0.25, 0.004]));
    expect(now).toEqual({ film: { "/w/scans/H0001.dng": [[0.3, 0.25, 0.004]] }, light: [] });
    expect(await open(folder).store.read(ROLL)).toEqual(now);
    expect(await store.read("/w/breakwater.roll.yaml")).toEqual(NONE_DISMISSED);
  });

  it("loses nothing when spots are dismissed faster than the disk writes, or in two windows", async () => {
    const { store, folder } = open();
    const other = dismissedStore(folder);
    await Promise.all(
      Array.from({ length: 20 }, (_, i) => store.change(ROLL, (now) => withDismissed(now, scan, [i / 20, 0.5, 0.004]))),
    );
    await other.change(ROLL, (now) => withDismissed(now, "light", [0.45, 0.35, 0.005]));
    await store.change(ROLL, (now) => withoutDismissed(now, scan, [0.5, 0.5, 0.004]));
    const { film, light } = await other.read(ROLL);
    expect(film[scan.scan]).toHaveLength(19);
    expect(light).toEqual([[0.45, 0.35, 0.005]]);
  });

  it("counts as nothing where the file is damaged, and can be kept again", async () => {
    const { store, folder } = open();
    await store.change(ROLL, (now) => withDismissed(now, scan, [0.3, 0.25, 0.004]));
    const path = join(folder, readdirSync(folder)[0]!);
    const text = readFileSync(path, "utf8");
    const wrong = [
      "",
      text.slice(0, 40),
      "null",
      "{}",
      text.replace("0.25", '"0.25"'),
      text.replace(/harbour/g, "other"),
    ];
    for (const damaged of wrong) {
      writeFileSync(path, damaged);
      expect(await store.read(ROLL)).toEqual(NONE_DISMISSED);
    }
    await store.change(ROLL, (now) => withDismissed(now, "light", [0.1, 0.1, 0.01]));
    expect((await store.read(ROLL)).light).toHaveLength(1);
  });

  it("goes on after a change that failed", async () => {
    const { store } = open();
    const failing = store.change(ROLL, () => {
      throw new Error("no");
    });
    await expect(failing).rejects.toThrow("no");
    await store.change(ROLL, (now) => withDismissed(now, "light", [0.1, 0.1, 0.01]));
    expect((await store.read(ROLL)).light).toHaveLength(1);
  });
});
