/** The job that decodes a scan for the first pass over a roll. */
import { type FirstPass, firstPassOf } from "../../../engine/auto/roll/first-pass.ts";
import { decodeScan } from "../../../scans/decode.ts";

export async function firstPass({ path }: { readonly path: string }): Promise<FirstPass> {
  const { scan, info } = await decodeScan(path, { half: true });
  return firstPassOf(scan, info);
}
