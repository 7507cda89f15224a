/** Whether a folder lies on a network disk, which reports no changes that another computer makes. */
import { statfsSync } from "node:fs";
import { dirname, resolve } from "node:path";

/**
 * Types of file systems whose files other computers change, as Linux numbers them (statfs(2), linux/magic.h): NFS, SMB,
 * CIFS, SMB2, AFS, Ceph, 9P, Coda, and FUSE, through which SSH and cloud folders are mounted.
 */
const NETWORK_TYPES = new Set([
  0x6969, 0x517b, 0xff534d42, 0xfe534d42, 0x5346414f, 0x00c36400, 0x01021997, 0x73757245, 0x65735546,
]);

/** @param folder absolute; where it is missing, the nearest folder above it is asked */
export function isOnNetwork(folder: string, typeOf = fileSystemType): boolean {
  // \\server\share on Windows.
  if (/^[\\/]{2}[^\\/.?]/.test(folder)) return true;
  for (let at = resolve(folder); ; at = dirname(at)) {
    const type = typeOf(at);
    if (type !== undefined) return NETWORK_TYPES.has(type >>> 0);
    if (dirname(at) === at) return false;
  }
}

function fileSystemType(path: string): number | undefined {
  // Other systems number their file systems by the order in which they were loaded.
  if (process.platform !== "linux") return 0;
  try {
    return statfsSync(path).type;
  } catch {
    return undefined;
  }
}
