/** Where a command keeps what can be made again: each system has a folder for that. */
import { homedir } from "node:os";
import { isAbsolute, join } from "node:path";

/**
 * Absolute. XDG_CACHE_HOME as the XDG Base Directory Specification has it, else the system's usual folder.
 * @param environment the process's variables
 */
export function cacheFolder(environment: NodeJS.ProcessEnv = process.env, platform = process.platform): string {
  const { XDG_CACHE_HOME: xdg, LOCALAPPDATA: local } = environment;
  if (xdg && isAbsolute(xdg)) return join(xdg, "rollbook");
  if (platform === "win32") return join(local ?? join(homedir(), "AppData", "Local"), "rollbook", "cache");
  return join(homedir(), ...(platform === "darwin" ? ["Library", "Caches"] : [".cache"]), "rollbook");
}
