/**
 * Paths in recipes. Text only: nothing here touches a file system, and links inside allowed folders are for whoever
 * opens files to follow or refuse. Both / and \ separate folders; results use /.
 */

/** Why a path may not be used, in words that complete "… is not allowed: ". */
export type PathProblem =
  | "it is empty"
  | "it is absolute"
  | "it begins with a drive letter"
  | "it names a network share"
  | "it is an address, not a file"
  | "it is longer than 1000 characters"
  | "it contains control characters"
  | "it contains a colon"
  | "it names a device"
  | "a part of it ends in a dot or a blank"
  | "it leads out of the workspace";

export type Resolution =
  | { readonly path: string; readonly problem?: undefined }
  | { readonly path?: undefined; readonly problem: PathProblem };

/**
 * Where `path`, written in the recipe `fromFile`, leads: a path of the same form as `fromFile`.
 * `roots` are the folders it may lead into; undefined checks everything but that.
 */
export function resolveInside(
  roots: string | readonly string[] | undefined,
  fromFile: string,
  path: string,
): Resolution {
  const problem = pathProblem(path);
  if (problem) return { problem };
  const joined = joinPath(folderOf(fromFile), path);
  if (joined === undefined) return { problem: "it leads out of the workspace" };
  if (roots === undefined) return { path: joined };
  const allowed = typeof roots === "string" ? [roots] : roots;
  return allowed.some((root) => isInside(root, joined))
    ? { path: joined }
    : { problem: "it leads out of the workspace" };
}

/** What is wrong with a path wherever it leads; undefined when nothing is. */
export function pathProblem(path: string): PathProblem | undefined {
  if (path.trim() === "") return "it is empty";
  if (path.length > 1000) return "it is longer than 1000 characters";
  // eslint-disable-next-line no-control-regex
  if (/[\u0000-\u001f\u007f-\u009f]/.test(path)) return "it contains control characters";
  if (/^[A-Za-z][A-Za-z0-9+.-]+:/.test(path)) return "it is an address, not a file";
  if (/^[A-Za-z]:/.test(path)) return "it begins with a drive letter";
  if (/^[\\/]{2}/.test(path)) return "it names a network share";
  if (/^[\\/]/.test(path)) return "it is absolute";
  if (path.includes(":")) return "it contains a colon";
  const parts = path.split(/[\\/]/);
  if (parts.some(isDeviceName)) return "it names a device";
  return parts.some((part) => /[. ]$/.test(part) && !/^\.{1,2}$/.test(part))
    ? "a part of it ends in a dot or a blank"
    : undefined;
}

/** Names that Windows keeps for devices, whatever their ending. */
export const isDeviceName = (name: string): boolean =>
  /^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]|conin\$|conout\$)[ .]*(\..*)?$/i.test(name);

/** The folder a file lies in; "" for a file at the root. */
export function folderOf(file: string): string {
  const path = file.replaceAll("\\", "/");
  const at = path.lastIndexOf("/");
  return at < 0 ? "" : at === 0 ? "/" : path.slice(0, at);
}

/** The folder with the path put on, dots taken out; undefined when it leads above everything. */
export function joinPath(folder: string, path: string): string | undefined {
  const base = folder.replaceAll("\\", "/");
  const head = /^([A-Za-z]:)?\/{0,2}/.exec(base)![0];
  const parts: string[] = [];
  for (const part of `${base.slice(head.length)}/${path.replaceAll("\\", "/")}`.split("/")) {
    if (part === "" || part === ".") continue;
    if (part !== "..") parts.push(part);
    else if (parts.pop() === undefined) return undefined;
  }
  return head + parts.join("/");
}

function isInside(root: string, path: string): boolean {
  const folder = joinPath(root, "");
  if (folder === undefined) return false;
  return folder === ""
    ? !/^([A-Za-z]:|\/)/.test(path)
    : path === folder || path.startsWith(folder.endsWith("/") ? folder : `${folder}/`);
}
