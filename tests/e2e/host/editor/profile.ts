import { mkdirSync, mkdtempSync, readFileSync, symlinkSync, writeFileSync, existsSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** The folders of one throw-away editor profile; everything lies under `base`. */
export interface Profile {
  base: string;
  user: string;
  extensions: string;
  home: string;
  /** Folders that a test opens are made in here. */
  work: string;
  config: string;
  log: string;
  driverPort: string;
}

/** Quiet, without network, and still enough that two pictures of the same thing are alike. */
const SETTINGS = {
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "workbench.enableExperiments": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.colorTheme": "Default Dark Modern",
  "workbench.editor.enablePreview": false,
  "workbench.reduceMotion": "on",
  "editor.cursorBlinking": "solid",
  "editor.accessibilitySupport": "off",
  "chat.disableAIFeatures": true,
  "chat.commandCenter.enabled": false,
  "telemetry.telemetryLevel": "off",
  "update.mode": "none",
  "extensions.autoUpdate": false,
  "extensions.autoCheckUpdates": false,
  "extensions.ignoreRecommendations": true,
  "security.workspace.trust.startupPrompt": "never",
  "git.autofetch": false,
  "git.openRepositoryInParentFolders": "always",
  "window.confirmBeforeClose": "never",
  "files.simpleDialog.enable": true,
  "npm.fetchOnlinePackageInfo": false,
};

/** Makes an empty profile with our settings and, over them, the caller's. */
export function makeProfile(settings: Record<string, unknown>): Profile {
  const base = mkdtempSync(join(tmpdir(), "rb-")); // short: Unix sockets in it may have 107 bytes
  const profile: Profile = {
    base,
    user: join(base, "u"),
    extensions: join(base, "x"),
    home: join(base, "h"),
    work: join(base, "w"),
    config: join(base, "config.yaml"),
    log: join(base, "server.log"),
    driverPort: join(base, "driver"),
  };
  for (const folder of [join(profile.user, "User"), profile.extensions, profile.home, profile.work])
    mkdirSync(folder, { recursive: true });
  writeFileSync(join(profile.user, "User/settings.json"), JSON.stringify({ ...SETTINGS, ...settings }, null, 2));
  writeFileSync(profile.config, "auth: none\ncert: false\n");
  return profile;
}

/** Links an unpacked extension into the profile. To be called before the server runs and after the VSIX installs. */
export function linkExtension(profile: Profile, folder: string): void {
  const { publisher, name, version } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const relativeLocation = `${publisher}.${name}-${version}`;
  const path = join(profile.extensions, relativeLocation);
  symlinkSync(folder, path);
  // Once a VSIX was installed there is a list, and a folder that it does not name would be marked for removal.
  const list = join(profile.extensions, "extensions.json");
  if (!existsSync(list)) return;
  const entries = JSON.parse(readFileSync(list, "utf8"));
  const location = { $mid: 1, path, scheme: "file" };
  entries.push({ identifier: { id: `${publisher}.${name}` }, version, location, relativeLocation, metadata: {} });
  writeFileSync(list, JSON.stringify(entries));
}
