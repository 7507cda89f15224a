/** Files that stand in a scan's place while git or a data store keeps it elsewhere; see recipe/resolve/pointer.ts for their forms. */
import { existsSync, readlinkSync } from "node:fs";
import { readFile, stat } from "node:fs/promises";
import { sep } from "node:path";
import {
  linkPointer,
  MAX_POINTER,
  type Pointer,
  pointerIn,
  pointerText,
  SIDECAR,
} from "../../recipe/resolve/pointer.ts";
import { ScanError } from "../errors.ts";

/** What lies at a path in place of a scan; undefined for a scan itself, and where there is nothing. */
export async function pointerAt(path: string): Promise<Pointer | undefined> {
  const found = await stat(path).catch(() => undefined);
  if (!found) return brokenLink(path);
  if (!found.isFile() || found.size > MAX_POINTER) return undefined;
  return pointerIn(await readFile(path).catch(() => new Uint8Array()), found.size);
}

/** A link whose target is not there; undefined where the path is no such link. */
function brokenLink(path: string): Pointer | undefined {
  try {
    const target = readlinkSync(path);
    return existsSync(path) ? undefined : linkPointer(target);
  } catch {
    return undefined;
  }
}

/** What is said where a scan should be decoded and only its pointer is here. */
export function notFetched(path: string, pointer: Pointer): ScanError {
  const { what, command } = pointerText(path.split(sep).join("/"), pointer);
  return new ScanError("not-fetched", path, what, `Fetch it first: ${command}.`);
}

/** Why there is no file at a path, where a store could fetch it. */
export function missingFromStore(path: string): ScanError | undefined {
  const pointer = brokenLink(path) ?? (existsSync(`${path}${SIDECAR}`) ? ({ store: "dvc" } as const) : undefined);
  return pointer && notFetched(path, pointer);
}
