/** Whether a scan's file is complete on disk, told from its headers without decoding it. */
import { recognise } from "./recognise.ts";
import { withFile } from "./files/source.ts";

/** @returns false where the file is no scan, cannot be read, or ends before the data that it announces */
export async function isComplete(path: string): Promise<boolean> {
  try {
    return await withFile(path, (source) => Promise.resolve(recognise(path, source)).then(() => true));
  } catch {
    return false;
  }
}
