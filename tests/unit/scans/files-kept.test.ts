// Writing files, telling them apart, and keeping proxies.
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, symlinkSync } from "node:fs";
import { utimesSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { fileMark, folderMark } from "../../../extension/scans/files/file-mark.ts";
import { writeAtomic } from "../../../extension/scans/files/atomic.ts";
import { folderCache } from "../../../extension/scans/files/cache.ts";
import { decodeScan } from "../../../extension/scans/decode.ts";
import { fingerprint } from "../../../extension/scans/files/fingerprint.ts";
import { parseProxy, proxyBytes, readProxy } from "../../../extension/scans/proxy.ts";
import { writeDng } from "../../witness/raw/dng.ts";
import { drawMosaic, temporaryFolder } from "./files.ts";

const folder = temporaryFolder();

describe("writeAtomic", () => {
  test("writes whole files into new folders and leaves nothing else", async () => {
    const path = join(folder.path, "a/b/picture.tif");
    await writeAtomic(path, new Uint8Array([1, 2, 3]));
    await writeAtomic(path, "again");
    expect(readFileSync(path, "utf8")).toBe("again");
    expect(readdirSync(join(folder.path, "a/b"))).toEqual(["picture.tif"]);
  });

  test("does not replace where it is told not to", async () => {
    const path = folder.put("scan.dng", "a scan");
    await expect(writeAtomic(path, "other", { replace: false })).rejects.toMatchObject({
      code: "exists",
      message: "scan.dng exists already, or was changed meanwhile, and is not replaced.",
    });
    expect(readFileSync(path, "utf8")).toBe("a scan");
    await writeAtomic(join(folder.path, "fresh.txt"), "new", { replace: false });
    expect(readFileSync(join(folder.path, "fresh.txt"), "utf8")).toBe("new");
  });

  test("replaces only the file that was looked at, in the folder that was looked at", async () => {
    mkdirSync(join(folder.path, "looked"));
    const path = folder.put("looked/at.txt", "one");
    const [mark, home] = [fileMark(path), folderMark(dirname(path))];
    await writeAtomic(path, "two", { replace: mark, folder: home });
    await expect(writeAtomic(path, "three", { replace: mark })).rejects.toMatchObject({ code: "exists" });
    expect(readFileSync(path, "utf8")).toBe("two");
    renameSync(dirname(path), join(folder.path, "moved"));
    mkdirSync(join(folder.path, "elsewhere"));
    symlinkSync(join(folder.path, "elsewhere"), dirname(path));
    await expect(writeAtomic(path, "four", { folder: home })).rejects.toMatchObject({ code: "write" });
    expect(readdirSync(join(folder.path, "elsewhere"))).toEqual([]);
    // The same folder by way of a link is the same folder.
    rmSync(dirname(path));
    symlinkSync(join(folder.path, "moved"), dirname(path));
    await writeAtomic(path, "five", { folder: home });
    expect(readFileSync(join(folder.path, "moved", "at.txt"), "utf8")).toBe("five");
  });

  test("a failure leaves no part behind", async () => {
    const home = join(folder.path, "taken");
    mkdirSync(join(home, "name"), { recursive: true });
    await expect(writeAtomic(join(home, "name"), "bytes")).rejects.toMatchObject({ code: "write" });
    expect(readdirSync(home)).toEqual(["name"]);
    await expect(writeAtomic(join(folder.put("file", "x"), "below"), "bytes")).rejects.toMatchObject({ code: "write" });
  });
});

describe("fingerprint", () => {
  test("SHA-256 of the test vectors in FIPS 180-4's examples", async () => {
    expect(await fingerprint(folder.put("abc", "abc"))).toEqual({
      size: 3,
      sha256: "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
    });
  });

  test("files larger than one part, and stopping", async () => {
    const bytes = Buffer.alloc(3_000_001, 7);
    const path = folder.put("large", bytes);
    expect(await fingerprint(path)).toEqual({
      size: bytes.length,
      sha256: createHash("sha256").update(bytes).digest("hex"),
    });
    const stop = () => {
      throw new Error("stopped");
    };
    await expect(fingerprint(path, stop)).rejects.toThrow("stopped");
    await expect(fingerprint(join(folder.path, "none"))).rejects.toMatchObject({ code: "missing" });
  });
});

describe("cache", () => {
  const age = (home: string, key: string, seconds: number) =>
    utimesSync(join(home, `${key}.cache`), new Date(2e12 - seconds * 1000), new Date(2e12 - seconds * 1000));

  test("drops what was not used for longest, and only as much as needed", async () => {
    const home = join(folder.path, "cache");
    const cache = folderCache(home, 100);
    for (const [key, seconds] of [
      ["old", 300],
      ["used", 200],
      ["new", 100],
    ] as const) {
      await cache.write(key, new Uint8Array(30));
      age(home, key, seconds);
    }
    age(home, "old", 50); // used since
    await cache.write("more", new Uint8Array(40));
    expect(readdirSync(home).sort()).toEqual(["more.cache", "new.cache", "old.cache"]);
    await cache.write("too-large", new Uint8Array(101));
    expect(existsSync(join(home, "too-large.cache"))).toBe(false);
  });

  test("reading counts as use", async () => {
    const home = join(folder.path, "cache-use");
    const cache = folderCache(home, 100);
    for (const key of ["first", "second"]) {
      await cache.write(key, new Uint8Array(40));
      utimesSync(join(home, `${key}.cache`), new Date(1e9), new Date(1e9));
    }
    await cache.read("first");
    await cache.write("third", new Uint8Array(40));
    expect(readdirSync(home).sort()).toEqual(["first.cache", "third.cache"]);
  });

  test("keys are not paths; what cannot be written is not kept", async () => {
    const cache = folderCache(join(folder.put("occupied", ""), "cache"), 100);
    await expect(cache.read("../outside")).rejects.toThrow(/no key/);
    await cache.write("key", new Uint8Array(3));
    expect(await cache.read("key")).toBeUndefined();
  });
});

describe("proxies", () => {
  const scanFile = (name: string) => {
    const data = drawMosaic(200, 120);
    return folder.put(name, writeDng({ width: 200, height: 120, data, black: 512, white: 15000, model: name }));
  };

  test("bytes and back", async () => {
    const decoded = await decodeScan(scanFile("proxy.dng"), { half: true });
    const bytes = proxyBytes(decoded);
    expect(parseProxy(bytes)).toEqual(decoded);
    expect(bytes).toEqual(proxyBytes(decoded));
  });

  test("any damage is noticed", async () => {
    const bytes = proxyBytes(await decodeScan(scanFile("damage.dng"), { half: true }));
    for (const at of [0, 9, 20, 60, bytes.length - 1]) {
      const damaged = bytes.slice();
      damaged[at] ^= 0x55;
      expect(parseProxy(damaged), `byte ${at}`).toBeUndefined();
    }
    expect(parseProxy(bytes.subarray(0, bytes.length - 2))).toBeUndefined();
    expect(parseProxy(new Uint8Array(0))).toBeUndefined();
  });

  test("kept by content, made again where damaged", async () => {
    const home = join(folder.path, "proxies");
    const cache = folderCache(home, 1e7);
    const path = scanFile("kept.dng");
    const first = await readProxy(path, 4, cache);
    expect(first.scan).toMatchObject({ width: 50, height: 30 });
    expect(first.info).toMatchObject({ width: 200, height: 120 });
    const [name] = readdirSync(home);
    const whole = readFileSync(join(home, name));
    expect(await readProxy(folder.put("copy.dng", readFileSync(path)), 4, cache)).toEqual(first);
    expect(readdirSync(home)).toEqual([name]);
    writeFileSync(join(home, name), whole.subarray(0, 500));
    expect(await readProxy(path, 4, cache)).toEqual(first);
    expect(readFileSync(join(home, name)).equals(whole)).toBe(true);
    await readProxy(path, 2, cache);
    expect(readdirSync(home)).toHaveLength(2);
  });
});
