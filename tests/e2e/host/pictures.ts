import { copyFileSync, existsSync, mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import type { Page } from "playwright-core";
import sharp from "sharp";

const root = resolve(import.meta.dirname, "../../..");
const shots = join(root, ".cache/e2e-shots");
const kept = join(root, "docs/pictures");

/** A picture in docs/ is replaced when more than this part of its pixels looks different. */
const NOTICEABLE = 0.001;

/**
 * Takes a picture of the window into .cache/e2e-shots/, and with E2E_KEEP_PICTURES (`--keep-pictures`) into
 * docs/pictures/ too when it differs from the one that is kept there.
 * @param name file name without ending
 * @param keep false for pictures that only help to find a fault
 */
export async function takePicture(page: Page, name: string, keep = true): Promise<string> {
  mkdirSync(shots, { recursive: true });
  const path = join(shots, `${name}.png`);
  await page.screenshot({ path, animations: "disabled", caret: "hide" });
  if (keep && process.env.E2E_KEEP_PICTURES) {
    mkdirSync(kept, { recursive: true });
    const target = join(kept, `${name}.png`);
    if (!existsSync(target) || (await changedPart(path, target)) > NOTICEABLE) copyFileSync(path, target);
  }
  return path;
}

/** The part (0 to 1) of pixels in which two pictures differ by more than 8/255 in a channel; 1 for different sizes. */
async function changedPart(one: string, other: string): Promise<number> {
  const [a, b] = await Promise.all(
    [one, other].map((path) => sharp(path).removeAlpha().raw().toBuffer({ resolveWithObject: true })),
  );
  if (a.info.width !== b.info.width || a.info.height !== b.info.height) return 1;
  const { channels } = a.info;
  let changed = 0;
  for (let i = 0; i < a.data.length; i += channels)
    for (let c = 0; c < channels; c++)
      if (Math.abs(a.data[i + c] - b.data[i + c]) > 8) {
        changed++;
        break;
      }
  return (changed * channels) / a.data.length;
}
