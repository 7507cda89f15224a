/** A real folder, watched by the system's events and by polling as on network disks. */
import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  renameSync,
  rmSync,
  statSync,
  unlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { isOnNetwork } from "../../../../../extension/work/copy-stand/watch/network-disk.ts";
import { type FolderWatch, watchFolder } from "../../../../../extension/work/copy-stand/watch/watch-folder.ts";
import { RGGB, writeDng } from "../../../../witness/raw/dng.ts";

const BYTES = writeDng({
  width: 32,
  height: 32,
  data: new Uint16Array(1024).fill(900),
  pattern: RGGB,
  bits: 14,
  black: 600,
  white: 15_000,
  make: "Testbench",
  model: "Copy One",
  exif: { shutter: [1, 60], aperture: 8, iso: 100, time: "2026:05:16 10:00:00", lens: "Macro", focal: 60 },
});
const TIMES = { still: 200, patience: 1500, pair: 600 };

const open: { folder: string; watch: FolderWatch }[] = [];
afterEach(async () => {
  for (const { folder, watch } of open.splice(0)) {
    await watch.close();
    rmSync(folder, { recursive: true, force: true });
  }
});

async function watched(polling: boolean, begin: (folder: string) => void = () => undefined) {
  const folder = mkdtempSync(join(tmpdir(), "watched-"));
  begin(folder);
  const seen: string[] = [];
  const onArrival: Parameters<typeof watchFolder>[1]["onArrival"] = (one) =>
    void seen.push(
      `${one.kind} ${one.kind === "renamed" ? `${one.from} ` : ""}${one.name}${one.kind === "complete" && one.replaces ? ` for ${one.replaces}` : ""}`,
    );
  const onFolder = (present: boolean): void => void seen.push(present ? "folder is back" : "folder is missing");
  const watch = watchFolder(folder, { polling, times: TIMES, onArrival, onFolder });
  open.push({ folder, watch });
  await watch.ready;
  return {
    folder,
    seen,
    write: (name: string, bytes: Uint8Array = BYTES): void => {
      mkdirSync(dirname(join(folder, name)), { recursive: true });
      writeFileSync(join(folder, name), bytes);
    },
    until: (what: string) => expect.poll(() => seen, { timeout: 20_000 }).toContain(what),
  };
}

describe.each([
  ["the system's events", false],
  ["polling, as on network disks", true],
])("a folder watched by %s", (_, polling) => {
  it("reports scans in it and in subfolders, when they are whole", async () => {
    const { folder, write, until, seen } = await watched(polling, (at) => writeFileSync(join(at, "A0001.dng"), BYTES));
    await until("complete A0001.dng");
    write("A0002.dng", BYTES.subarray(0, BYTES.length >> 1));
    write("notes.txt");
    write("DCIM/100/A0003.dng");
    await until("complete DCIM/100/A0003.dng");
    expect(seen).not.toContain("complete A0002.dng");
    appendFileSync(join(folder, "A0002.dng"), BYTES.subarray(BYTES.length >> 1));
    await until("complete A0002.dng");
    expect(seen.filter((one) => one.startsWith("complete"))).toHaveLength(3);
  });

  it("gives up a file whose end does not come, and takes it when it comes after all", async () => {
    const { folder, write, until, seen } = await watched(polling);
    write("A0001.dng", BYTES.subarray(0, BYTES.length - 200));
    await until("incomplete A0001.dng");
    appendFileSync(join(folder, "A0001.dng"), BYTES.subarray(BYTES.length - 200));
    await until("complete A0001.dng");
    expect(seen).toEqual(["incomplete A0001.dng", "complete A0001.dng"]);
  });

  it("follows a name under which a copying program writes, and later ones", async () => {
    const { folder, write, until, seen } = await watched(polling);
    write("A0001.dng.part");
    renameSync(join(folder, "A0001.dng.part"), join(folder, "A0001.dng"));
    await until("complete A0001.dng");
    renameSync(join(folder, "A0001.dng"), join(folder, "quay-01.dng"));
    await until("renamed A0001.dng quay-01.dng");
    unlinkSync(join(folder, "quay-01.dng"));
    await until("deleted quay-01.dng");
    expect(seen.filter((one) => one.startsWith("complete"))).toHaveLength(1);
  });

  it("reports one scan for a raw file and its JPEG", async () => {
    const { write, until, seen } = await watched(polling);
    write("A0001.jpg");
    write("A0001.dng");
    await until("complete A0001.dng");
    await new Promise((done) => setTimeout(done, TIMES.pair + 600));
    expect(seen).toEqual(["complete A0001.dng"]);
  });

  it("finds what was written before the watcher had its first look", async () => {
    const { folder, until, seen } = await watched(polling);
    // As a disk does whose times are coarse: the folder looks as it did before.
    const { atime, mtime } = statSync(folder);
    writeFileSync(join(folder, "A0001.dng"), BYTES);
    utimesSync(folder, atime, mtime);
    await until("complete A0001.dng");
    expect(seen).toEqual(["complete A0001.dng"]);
  });

  it("waits for a folder that is pulled out, and goes on when it is back", async () => {
    const { folder, write, until, seen } = await watched(polling);
    rmSync(folder, { recursive: true });
    await until("folder is missing");
    mkdirSync(folder);
    await until("folder is back");
    write("A0001.dng");
    await until("complete A0001.dng");
    expect(seen).toEqual(["folder is missing", "folder is back", "complete A0001.dng"]);
  });
});

describe("a network disk", () => {
  it.each([
    ["NFS", 0x6969, true],
    ["CIFS", 0xff534d42, true],
    // Linux gives types above 2³¹ as negative numbers.
    ["SMB2", 0xfe534d42 | 0, true],
    ["FUSE, as of SSH", 0x65735546, true],
    ["ext4", 0xef53, false],
    ["tmpfs", 0x01021994, false],
  ])("%s: %s", (_, type, is) => expect(isOnNetwork("/scans/roll", () => type)).toBe(is));

  it("is told by the nearest folder that is there, and by its name on Windows", () => {
    const typeOf = (at: string): number | undefined => (at === "/scans" ? 0x6969 : undefined);
    expect(isOnNetwork("/scans/roll/new", typeOf)).toBe(true);
    expect(isOnNetwork("/other", typeOf)).toBe(false);
    expect(isOnNetwork("\\\\server\\scans", () => 0)).toBe(true);
    expect(isOnNetwork("\\\\?\\C:\\scans", () => 0)).toBe(false);
  });
});
