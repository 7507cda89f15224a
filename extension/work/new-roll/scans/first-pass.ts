/** The job that decodes a scan for the first pass over a roll. */
import { type FirstPass, firstPassOf } from "../../../engine/auto/roll/first-pass.ts";
import { decodeAndKeep } from "../../frame/kept-scans.ts";

export interface FirstPassRequest {
  readonly path: string;
  /** Bytes of scans that the worker may keep for a second look; none where there will be none. */
  readonly keep?: number;
}

export async function firstPass({ path, keep = 0 }: FirstPassRequest): Promise<FirstPass> {
  const { scan, info } = await decodeAndKeep(path, keep);
  return firstPassOf(scan, info);
}
