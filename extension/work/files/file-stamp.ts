/** What tells cheaply that a file is still the one it was: its size and the time of its last change, in milliseconds. */
export const fileStamp = (found: { readonly size: number; readonly mtime: number } | undefined): string =>
  found ? `${found.size} ${found.mtime}` : "missing";
