/** Which files count as complete scans: half-written, renamed, paired, deleted and given up. */
import { isScanPath } from "../../../../../extension/recipe/scan-names.ts";
import { describe, expect, it } from "vitest";
import {
  type Arrival,
  type Arrivals,
  type FileState,
  inspected,
  LOCAL,
  NETWORK,
  NO_ARRIVALS,
  seen,
  settle,
  toConfirm,
  toInspect,
  vanished,
} from "../../../../../extension/work/copy-stand/watch/arrivals.ts";

/** A folder and its clock: what happens in it, and what is reported. */
function folder(times = LOCAL) {
  let state: Arrivals = NO_ARRIVALS;
  let now = 0;
  const files = new Map<string, FileState & { whole: boolean }>();
  const reported: Arrival[] = [];
  const take = ({ next, arrivals }: { next: Arrivals; arrivals: readonly Arrival[] }): void => {
    state = next;
    reported.push(...arrivals);
  };
  let ids = 0;
  return {
    reported,
    /** Writes a file; the same name again changes it. */
    write: (name: string, size: number, whole: boolean): void => {
      const file = { size, changed: now, id: files.get(name)?.id ?? ++ids, whole };
      files.set(name, file);
      take(seen(state, name, file, now));
    },
    rename: (from: string, to: string, order: "old first" | "new first"): void => {
      const file = files.get(from)!;
      files.delete(from);
      files.set(to, file);
      if (order === "old first") take(vanished(state, from, now));
      take(seen(state, to, file, now));
      if (order === "new first") take(vanished(state, from, now));
    },
    /** Gives a file another name beside the one that it has. */
    link: (from: string, to: string): void => {
      files.set(to, files.get(from)!);
      take(seen(state, to, files.get(from)!, now));
    },
    remove: (name: string): void => {
      files.delete(name);
      take(vanished(state, name, now));
    },
    wait: (milliseconds: number): void => {
      for (const end = now + milliseconds; now < end;) {
        now += 50;
        for (const name of toInspect(state, now, times)) {
          const file = files.get(name);
          if (file) state = inspected(state, name, file, file.whole, now);
        }
        take(settle(state, now, times));
      }
    },
    twins: (): string[] => toConfirm(state),
    names: (): string[] => reported.map((one) => `${one.kind} ${one.name}`),
  };
}

describe("a scan on its way to the disk", () => {
  it("is complete when it has its end and has not changed for a while", () => {
    const { write, wait, names } = folder();
    write("A1.dng", 100, false);
    wait(2000);
    expect(names()).toEqual([]);
    write("A1.dng", 200, true);
    expect(names()).toEqual([]);
    wait(LOCAL.still + 100);
    expect(names()).toEqual(["complete A1.dng"]);
  });

  it("is looked at again when it grows after its end was looked for", () => {
    const { write, wait, names } = folder();
    write("A1.dng", 100, true);
    wait(LOCAL.still - 50);
    write("A1.dng", 300, true);
    wait(LOCAL.still - 50);
    expect(names()).toEqual([]);
    wait(200);
    expect(names()).toEqual(["complete A1.dng"]);
  });

  it("is given up, once, when its end does not come, and is taken when it comes later", () => {
    const { write, wait, names } = folder();
    write("A1.dng", 100, false);
    wait(LOCAL.patience + 5000);
    expect(names()).toEqual(["incomplete A1.dng"]);
    write("A1.dng", 200, true);
    wait(1000);
    expect(names()).toEqual(["incomplete A1.dng", "complete A1.dng"]);
  });

  it("is waited for longer on a network disk", () => {
    const { write, wait, names } = folder(NETWORK);
    write("A1.dng", 100, true);
    wait(LOCAL.still + 500);
    expect(names()).toEqual([]);
    wait(NETWORK.still);
    expect(names()).toEqual(["complete A1.dng"]);
  });

  it("comes in the order in which the files were written, from subfolders too", () => {
    const { write, wait, names } = folder();
    write("B/A2.dng", 100, true);
    wait(50);
    write("A/A3.dng", 100, true);
    wait(1000);
    expect(names()).toEqual(["complete B/A2.dng", "complete A/A3.dng"]);
  });
});

describe("two files of one exposure", () => {
  it("are one scan: the raw file, whichever comes first", () => {
    for (const order of [
      ["A1.jpg", "A1.dng"],
      ["A1.dng", "A1.JPG"],
    ]) {
      const { write, wait, names } = folder();
      for (const name of order) {
        write(name, 100, true);
        wait(600);
      }
      wait(5000);
      expect(names()).toEqual(["complete A1.dng"]);
    }
  });

  it("a raw file that comes late takes the JPEG's place", () => {
    const { write, wait, reported } = folder();
    write("A1.jpg", 100, true);
    wait(LOCAL.pair + 500);
    write("A1.dng", 900, true);
    wait(1000);
    expect(reported.map(({ kind, name }) => `${kind} ${name}`)).toEqual(["complete A1.jpg", "complete A1.dng"]);
    expect(reported[1]).toMatchObject({ replaces: "A1.jpg" });
  });

  it("of one name in two folders are two scans", () => {
    const { write, wait, names } = folder();
    write("A/A1.dng", 100, true);
    write("B/A1.dng", 100, true);
    wait(1000);
    expect(names()).toEqual(["complete A/A1.dng", "complete B/A1.dng"]);
  });
});

describe("a complete scan", () => {
  it.each(["old first", "new first"] as const)("that is renamed is no new scan (%s)", (order) => {
    const { write, wait, rename, names } = folder();
    write("A1.dng", 100, true);
    wait(1000);
    rename("A1.dng", "quay-01.dng", order);
    wait(10_000);
    expect(names()).toEqual(["complete A1.dng", "renamed quay-01.dng"]);
  });

  it("that is renamed is no new scan where the old name is missed a second later", () => {
    const { write, wait, link, remove, names, twins } = folder();
    write("A1.dng", 100, true);
    wait(1000);
    link("A1.dng", "quay-01.dng");
    wait(1000);
    expect(names()).toEqual(["complete A1.dng"]);
    expect(twins()).toEqual(["A1.dng"]);
    remove("A1.dng");
    expect(twins()).toEqual([]);
    wait(10_000);
    expect(names()).toEqual(["complete A1.dng", "renamed quay-01.dng"]);
  });

  it("that stays under both names is a scan under each in the end", () => {
    const { write, wait, link, names } = folder();
    write("A1.dng", 100, true);
    wait(1000);
    link("A1.dng", "quay-01.dng");
    wait(LOCAL.patience + 200);
    expect(names()).toEqual(["complete A1.dng", "complete quay-01.dng"]);
  });

  it("that is deleted is reported when no file like it has come", () => {
    const { write, wait, remove, names } = folder();
    write("A1.dng", 100, true);
    wait(1000);
    remove("A1.dng");
    expect(names()).toEqual(["complete A1.dng"]);
    wait(LOCAL.pair + 100);
    expect(names()).toEqual(["complete A1.dng", "deleted A1.dng"]);
  });

  it("that is overwritten is a scan again", () => {
    const { write, wait, names } = folder();
    write("A1.dng", 100, true);
    wait(1000);
    write("A1.dng", 120, true);
    wait(1000);
    expect(names()).toEqual(["complete A1.dng", "complete A1.dng"]);
  });
});

describe("a file's name", () => {
  it.each([
    ["A1.dng", true],
    ["DCIM/100/A1.NEF", true],
    ["A1.jpeg", true],
    [".A1.dng", false],
    [".trash/A1.dng", false],
    ["A1.dng.part", false],
    ["notes.txt", false],
    ["__MACOSX/A1.dng", false],
  ])("%s: %s", (name, is) => expect(isScanPath(name)).toBe(is));
});
