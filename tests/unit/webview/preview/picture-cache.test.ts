import { expect, it } from "vitest";
import { PictureCache } from "../../../../webview/preview/picture-cache.ts";
import type { Source } from "../../../../webview/render/source.ts";

const picture = (key: string, bytes: number): Source =>
  ({ key, levels: [{ codes: { byteLength: bytes } }] }) as unknown as Source;

it("keeps pictures up to a number of bytes; the one that was used longest ago goes first, the newest stays", () => {
  const cache = new PictureCache(100);
  for (const key of ["a", "b", "c"]) cache.keep(picture(key, 30));
  expect(cache.get("a")?.key).toBe("a");
  cache.keep(picture("d", 30));
  expect(["a", "b", "c", "d"].filter((key) => cache.has(key))).toEqual(["a", "c", "d"]);
  cache.keep(picture("large", 500));
  expect(["a", "c", "d", "large"].filter((key) => cache.has(key))).toEqual(["large"]);
});
