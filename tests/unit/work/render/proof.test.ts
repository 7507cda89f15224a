/** The job behind soft proofs: kept by the profile's content, and a reason where there can be none. */
import { copyFileSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { PROOF_SIDE, PROOF_VALUES } from "../../../../extension/engine/colour/proof-table.ts";
import { proofOfPrinter } from "../../../../extension/work/render/proof.ts";
import { modelProfile } from "../../../witness/printer/printer-profile.ts";

const root = mkdtempSync(join(tmpdir(), "proof-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
const cache = { folder: join(root, "cache"), maxBytes: 1e7 };
const file = join(root, "matte.icc");
writeFileSync(file, modelProfile("RGB"));
const request = { file, intent: "perceptual", compensate: false, screen: "srgb", cache } as const;
const kept = (): string[] => readdirSync(cache.folder);

it("is made once for a profile's content and an intent, and again for another", async () => {
  const first = await proofOfPrinter(request);
  expect(first.byteLength).toBe(2 * PROOF_VALUES * PROOF_SIDE ** 3);
  const [name] = kept();
  const copy = join(root, "same under another name.icc");
  copyFileSync(file, copy);
  expect(Buffer.from(await proofOfPrinter({ ...request, file: copy })).equals(first)).toBe(true);
  expect(kept()).toEqual([name]);
  // What is kept is checked: a damaged entry is made again.
  writeFileSync(join(cache.folder, name!), "damaged");
  expect(Buffer.from(await proofOfPrinter(request)).equals(first)).toBe(true);
  for (const other of [{ intent: "saturation" }, { screen: "p3" }] as const)
    expect(Buffer.from(await proofOfPrinter({ ...request, ...other })).equals(first)).toBe(false);
  expect(kept()).toHaveLength(3);
});

it("names a profile that is missing, no profile, or not a printer's", async () => {
  await expect(proofOfPrinter({ ...request, file: join(root, "gone.icc") })).rejects.toMatchObject({
    code: "unreadable",
  });
  const text = join(root, "text.icc");
  writeFileSync(text, "not a profile");
  await expect(proofOfPrinter({ ...request, file: text })).rejects.toMatchObject({
    code: "profile",
    remedy: "Name the .icc or .icm file of the printer and paper.",
  });
});
