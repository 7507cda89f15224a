import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterAll, afterEach, beforeAll } from "vitest";
import { Assistance } from "./window/assistance.ts";
import { launchBrowser, openPage } from "./window/browser.ts";
import { takePicture } from "./pictures.ts";
import { startServer, type Server, type ServerOptions } from "./editor/server.ts";
import { TextEditor } from "./window/text-editor.ts";
import { EditorWindow } from "./window/window.ts";

export interface SessionOptions extends ServerOptions {
  /** Name of the folder that is opened; it is made new in the profile. */
  folder: string;
  /** Files of the folder: path → text. */
  files?: Record<string, string>;
  /** Puts more into the folder (scans, a git history) before it is opened. */
  prepare?: (folder: string) => void | Promise<void>;
  size?: { width: number; height: number };
}

/** A running editor with a folder open. */
export interface Session {
  /** The opened folder's path. */
  folder: string;
  server: Server;
  window: EditorWindow;
  text: TextEditor;
  assistance: Assistance;
  /** Takes a picture for the docs (see pictures.ts). */
  picture: (name: string) => Promise<string>;
  stop: () => Promise<void>;
}

/** Starts a server and a browser and opens the folder. On failure nothing is left running. */
export async function startSession(options: SessionOptions): Promise<Session> {
  const server = await startServer(options);
  const closers: (() => Promise<unknown>)[] = [() => server.stop()];
  const stop = async () => {
    for (const close of closers.reverse()) await close().catch((error: unknown) => console.error(error));
  };
  try {
    const folder = join(server.profile.work, options.folder);
    mkdirSync(folder);
    for (const [path, text] of Object.entries(options.files ?? {})) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    await options.prepare?.(folder);
    const browser = await launchBrowser(server.profile.base);
    closers.push(() => browser.close());
    const window = new EditorWindow(server, await openPage(browser, options.size));
    await window.openFolder(folder);
    const text = new TextEditor(server, window.page);
    const picture = (name: string) => takePicture(window.page, name);
    return { folder, server, window, text, assistance: new Assistance(window, text), picture, stop };
  } catch (error) {
    await stop();
    throw error;
  }
}

/**
 * One session for all tests of the describe block it is called in. A failed test leaves a picture in .cache/e2e-shots/
 * and prints what the server, the extension host and the page had to say.
 * @returns a function that gives the session, to be called within the tests
 */
export function useSession(options: () => SessionOptions): () => Session {
  let session: Session | undefined;
  beforeAll(async () => {
    session = await startSession(options());
  });
  afterEach(async ({ task }) => {
    if (task.result?.state !== "fail" || !session) return;
    await takePicture(session.window.page, `failed ${task.name.replace(/[^\w]+/g, " ").trim()}`, false);
    console.error(["The page's errors:", ...session.window.watched.errors, ...readLogs(session.server)].join("\n"));
  });
  afterAll(async () => {
    await session?.stop();
    session = undefined;
  });
  return () => {
    if (!session) throw new Error("The session is not running: call this within a test.");
    return session;
  };
}

/** The last lines of the server's log and of every log file that tells of extensions. */
function readLogs(server: Server): string[] {
  const logs = join(server.profile.user, "logs");
  const tail = (text: string) => text.split("\n").slice(-30);
  const files = readdirSync(logs, { recursive: true, encoding: "utf8" }).filter((name) => /exthost.*\.log$/.test(name));
  return [
    "The server:",
    ...tail(server.log()),
    ...files.flatMap((name) => [`${name}:`, ...tail(readFileSync(join(logs, name), "utf8"))]),
  ];
}
