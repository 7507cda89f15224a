import { spawn, spawnSync } from "node:child_process";
import { randomUUID } from "node:crypto";
import { existsSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { join, resolve } from "node:path";
import { linkExtension, makeProfile, type Profile } from "./profile.ts";
import { LIMIT, until } from "../wait.ts";

export type VsCode = typeof import("vscode");

export interface ServerOptions {
  /** VSIX files to install. */
  vsix?: string[];
  /** Folders of unpacked extensions. */
  unpacked?: string[];
  /** User settings over the harness's own. */
  settings?: Record<string, unknown>;
  /** False leaves workspace trust on: every folder then opens restricted. Default true. */
  trusted?: boolean;
  /** Environment variables for the extension host, beside the few that the harness sets. */
  env?: Record<string, string>;
}

/** One running VS Code server with its throw-away profile. */
export interface Server {
  profile: Profile;
  /** The address that shows a folder. */
  address(folder: string): string;
  /**
   * Runs a function in the extension host of the window that was opened last. It is sent as text: it sees its
   * arguments and `vscode`, nothing of the test around it. Arguments and result go through JSON.
   */
  exec<A extends unknown[], R>(run: (vscode: VsCode, ...args: A) => R, ...args: A): Promise<Awaited<R>>;
  /** To be called before a window is reloaded: the next `exec` waits for the new extension host. */
  forgetExtensionHost(): void;
  /** What the server printed. */
  log(): string;
  stop(): Promise<void>;
}

const root = resolve(import.meta.dirname, "../../../..");
const hostFolder = resolve(process.env.E2E_HOST_DIR ?? join(root, ".cache/e2e-host"));

/**
 * Starts a server on a free port of this machine alone, with a new profile.
 * @throws Error when the host is not installed, a VSIX cannot be installed or the server does not come up
 */
export async function startServer({
  vsix = [],
  unpacked = [],
  settings = {},
  trusted = true,
  env = {},
}: ServerOptions): Promise<Server> {
  const { node, entry } = readHost();
  const profile = makeProfile(settings);
  const token = randomUUID();
  // Built from nothing: no VSCODE_* (in the editor's own terminal they would send every call to that window).
  const environment = {
    PATH: "/usr/local/bin:/usr/bin:/bin",
    LANG: "C.UTF-8",
    HOME: profile.home,
    TMPDIR: profile.base,
    GIT_CONFIG_NOSYSTEM: "1",
    EXTENSIONS_GALLERY: JSON.stringify({ serviceUrl: "", itemUrl: "", resourceUrlTemplate: "" }), // no gallery to call
    E2E_DRIVER_PORT_FILE: profile.driverPort,
    E2E_DRIVER_TOKEN: token,
    ...env,
  };
  const folders = ["--user-data-dir", profile.user, "--extensions-dir", profile.extensions, "--config", profile.config];
  for (const file of vsix) {
    const run = spawnSync(node, [entry, ...folders, "--install-extension", resolve(file)], {
      env: environment,
      encoding: "utf8",
    });
    if (run.status === 0) continue;
    rmSync(profile.base, { recursive: true, force: true });
    throw new Error(`${file} could not be installed:\n${run.stdout}${run.stderr}`);
  }
  for (const folder of [join(import.meta.dirname, "driver"), ...unpacked]) linkExtension(profile, folder);

  const port = await freePort();
  const switches = ["--disable-telemetry", "--disable-update-check", "--disable-getting-started-override"];
  if (trusted) switches.push("--disable-workspace-trust");
  const args = [entry, "--bind-addr", `127.0.0.1:${port}`, "--auth", "none", ...folders, ...switches];
  const guard = spawn(
    process.execPath,
    [
      join(import.meta.dirname, "guard.mjs"),
      profile.base,
      profile.log,
      node,
      ...args,
      "--disable-proxy",
      "--ignore-last-opened",
    ],
    { env: environment, detached: true, stdio: ["pipe", "ignore", "ignore"] },
  );
  const gone = new Promise<void>((done) => guard.once("exit", () => done()));
  const log = () => (existsSync(profile.log) ? readFileSync(profile.log, "utf8") : "");
  const stop = async () => {
    guard.stdin.end();
    await Promise.race([gone, new Promise((done) => setTimeout(done, 10_000).unref())]);
    if (guard.exitCode === null) guard.kill("SIGKILL");
  };
  try {
    await until("the server to answer", async () => {
      if (guard.exitCode !== null) throw new Error(`The server left with ${guard.exitCode}.`);
      return (await fetch(`http://127.0.0.1:${port}/healthz`)).ok;
    });
  } catch (error) {
    const printed = log();
    await stop();
    throw new Error(`The editor's server did not start. It printed:\n${printed}`, { cause: error });
  }

  return {
    profile,
    address: (folder) => `http://127.0.0.1:${port}/?folder=${encodeURIComponent(resolve(folder))}`,
    forgetExtensionHost: () => rmSync(profile.driverPort, { force: true }),
    log,
    stop,
    async exec<A extends unknown[], R>(run: (vscode: VsCode, ...args: A) => R, ...args: A): Promise<Awaited<R>> {
      await until("the extension host to start", () => existsSync(profile.driverPort));
      const response = await fetch(`http://127.0.0.1:${readFileSync(profile.driverPort, "utf8")}/`, {
        method: "POST",
        headers: { "x-token": token },
        body: JSON.stringify({ source: run.toString(), args }),
        signal: AbortSignal.timeout(2 * LIMIT),
      });
      const { value, error } = (await response.json()) as { value?: unknown; error?: string };
      if (error) throw new Error(`In the extension host: ${error}`);
      return value as Awaited<R>;
    },
  };
}

function readHost(): { node: string; entry: string } {
  const record = join(hostFolder, "host.json");
  if (existsSync(record)) return JSON.parse(readFileSync(record, "utf8"));
  throw new Error(`No editor is installed in ${hostFolder}. Run: node tests/e2e/host/editor/install.mjs`);
}

function freePort(): Promise<number> {
  return new Promise((done, fail) => {
    const probe = createServer().once("error", fail);
    probe.listen(0, "127.0.0.1", () => {
      const address = probe.address();
      probe.close(() =>
        address && typeof address === "object" ? done(address.port) : fail(new Error("No free port.")),
      );
    });
  });
}
