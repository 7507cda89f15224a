/**
 * Scans that git or a data store keeps elsewhere: what lies in their place, and the command that fetches them. No files are
 * read here.
 *
 * Git LFS: a text of at most 1024 bytes, whose first line names the version and others oid and size (the Git LFS
 * specification, "The Pointer"). git-annex: a link into .git/annex/objects, or a text that begins /annex/objects/; the last
 * part is a key, such as SHA256E-s1234--HASH.dng (git-annex documentation, "key format" and "pointer file"). Stores that
 * link into a cache: a plain link to what is not there, or NAME.dvc beside a file that is missing.
 */
import { folderOf } from "../paths.ts";

/** What a pointer states. Size in bytes and SHA-256 are absent where its kind of key has another hash. */
export interface Pointer {
  readonly store: "Git LFS" | "git-annex" | "data store" | "dvc";
  readonly size?: number;
  readonly sha256?: string;
}

/** No pointer is longer. */
export const MAX_POINTER = 1024;

/** The ending of the text that stands beside a file which such a store has taken away. */
export const SIDECAR = ".dvc";

/** @param head a file's first bytes, up to MAX_POINTER; @param size of the whole file in bytes */
export function pointerIn(head: Uint8Array, size: number): Pointer | undefined {
  if (size > MAX_POINTER || size === 0) return undefined;
  const text = new TextDecoder("latin1").decode(head);
  if (text.startsWith("version https://git-lfs.github.com/spec/v1\n")) {
    const oid = /^oid sha256:([0-9a-f]{64})$/m.exec(text)?.[1];
    const bytes = /^size (\d{1,15})$/m.exec(text)?.[1];
    return { store: "Git LFS", ...(oid && bytes ? { sha256: oid, size: Number(bytes) } : {}) };
  }
  const annexed = /^\/annex\/objects\/([^\n/]+)\n?/.exec(text)?.[1];
  return annexed === undefined ? undefined : keyPointer(annexed);
}

/** @param target what a link leads to, where nothing is there */
export function linkPointer(target: string): Pointer {
  const key = /[\\/]annex[\\/]objects[\\/](?:.*[\\/])?([^\\/]+)$/.exec(target)?.[1];
  return key === undefined ? { store: "data store" } : keyPointer(key);
}

/** A key that ends a git-annex link: BACKEND-sSIZE--HASH, with more fields and an ending for some. */
function keyPointer(key: string): Pointer {
  const found = /^SHA256E?-(?:[a-z]\d+-)*?s(\d{1,15})(?:-[a-z]\d+)*--([0-9a-f]{64})(?:\.[\w.]*)?$/i.exec(key);
  return { store: "git-annex", ...(found ? { size: Number(found[1]), sha256: found[2].toLowerCase() } : {}) };
}

/**
 * What is said of a scan whose pointer alone is here.
 * @param path the scan's, with / between folders
 * @returns what it is, to follow its name; and the command that fetches it, with its folder
 */
export function pointerText(path: string, { store }: Pointer): { readonly what: string; readonly command: string } {
  const name = path.slice(path.lastIndexOf("/") + 1);
  const [word, folder] = [shellWord(name), folderOf(path)];
  const inFolder = folder === "" ? "" : `, in ${folder}`;
  const here = "the scan itself is not on this computer";
  switch (store) {
    case "Git LFS":
      return {
        what: `is a Git LFS pointer: ${here}`,
        command: `git lfs pull --include ${word === name ? `"**/${name}"` : shellWord(`**/${name}`)}`,
      };
    case "git-annex":
      return { what: `is a git-annex pointer: ${here}`, command: `git annex get ${word}${inFolder}` };
    case "data store":
      return {
        what: `is a link to a file that is not there: ${here}`,
        command: "your data store's own command (such as: dvc pull)",
      };
    case "dvc":
      return {
        what: `is not on this computer; ${name}${SIDECAR} beside it says that a data store has it`,
        command: `dvc pull ${word}${inFolder}`,
      };
  }
}

/** A name as one word of a shell. It comes from a recipe, and may hold what a shell would carry out. */
const shellWord = (name: string): string => (/^\w[\w.+@=-]*$/.test(name) ? name : `'${name.replaceAll("'", "'\\''")}'`);
