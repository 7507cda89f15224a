import { describe, expect, it } from "vitest";
import { DocumentCache } from "../../../../extension/recipe/language/document-cache.ts";
import { MemoryWorkspace, open } from "./memory.ts";
import { files, roll, stock } from "./recipes.ts";

describe("the library", () => {
  it("parses a text once a version and resolves it once until something around it changes", async () => {
    const { documents, reading, workspace } = await open(roll, files);
    const source = { file: "/w/harbour.roll.yaml", version: 1, text: roll };
    expect(documents.document(source)).toBe(reading.document);
    expect(await documents.reading(reading.document)).toBe(reading);

    const changed = documents.document({ ...source, version: 2, text: roll.replace("Harbour", "Pier") });
    expect(changed).not.toBe(reading.document);

    workspace.files.set("/w/stocks/northlight-400.stock.yaml", stock.replace("contrast: 1.5", "contrast: 1.6"));
    const before = await documents.reading(changed);
    documents.invalidate();
    const after = await documents.reading(changed);
    expect(after).not.toBe(before);
    expect(after.resolved.valueAt("02", ["positive", "contrast"])).toBe(1.6);
  });

  it("forgets what was closed, and keeps few of those that were never open", async () => {
    const { documents } = await open(roll, files);
    documents.forget("/w/harbour.roll.yaml");
    expect(documents.size).toBe(0);
    const many = Object.fromEntries(Array.from({ length: 80 }, (_, i) => [`${i}.roll.yaml`, roll]));
    const big = new DocumentCache(new MemoryWorkspace(many));
    for (let i = 0; i < 80; i++) await big.file(`/w/${i}.roll.yaml`);
    expect(big.size).toBe(64);
  });

  it("resolves rolls that name no stock, a missing one, or themselves", async () => {
    for (const name of ["gone.stock.yaml", "harbour.roll.yaml", "../../../out.stock.yaml"]) {
      const { reading } = await open(roll.replace("stocks/northlight-400.stock.yaml", name), files);
      expect(reading.resolved.frames).toHaveLength(3);
      expect(reading.stock).toBeUndefined();
    }
  });
});
