/** The roll sheet on a page of its own, with a host that is not there. */
import { makeSheet, type Sheet } from "../../webview/sheet/sheet.ts";
import "../../webview/preview/preview.css";
import "../../webview/sheet/sheet.css";
import { type FakeHost, makeFakeHost } from "./fake-host.ts";
import { BASE, drawnOnce } from "./wedge.ts";

export interface SheetPageOptions {
  readonly text: string;
  readonly stock: string;
  readonly worker?: boolean;
  readonly gpu?: "real" | "never" | "always";
  /** Whether the host is in a worker: tests then cannot look into it. */
  readonly hostInWorker?: boolean;
  readonly surround?: number;
  readonly counts?: Readonly<Record<string, number>>;
  readonly accepts?: boolean;
  readonly measured?: readonly string[];
}

declare global {
  interface Window {
    openSheet(options: SheetPageOptions): Promise<void>;
    sheet: Sheet;
    sheetHost: FakeHost;
  }
}

const workerOf = async (file: string): Promise<Worker> => {
  const text = await (await fetch(file)).text();
  return new Worker(URL.createObjectURL(new Blob([text], { type: "text/javascript" })));
};

window.openSheet = async ({ worker = true, gpu = "never", hostInWorker = false, ...options }) => {
  let sheet: Sheet | undefined;
  const root = document.getElementById("panel");
  if (!root) throw new Error("The page has no place for the sheet.");
  const surroundings = {
    tileWorker: worker ? await workerOf("/tile-worker.js") : undefined,
    makeWorker: async () => (worker ? await workerOf("/preview-worker.js") : undefined),
    gpu,
  };
  if (hostInWorker) {
    const other = await workerOf("/sheet-host.js");
    other.onmessage = ({ data }) => sheet?.receive(data);
    other.postMessage({ start: options });
    const host = {
      postMessage: (message: unknown) => other.postMessage(message),
      getState: () => undefined,
      setState() {},
    };
    window.sheet = sheet = makeSheet(root, { host, ...surroundings });
    return;
  }
  window.sheetHost = makeFakeHost({
    ...options,
    post: (message) => setTimeout(() => sheet?.receive(message)),
    async proxyOf(frame, want) {
      if (frame.scans[0].includes("BROKEN"))
        throw new Error(`${frame.scans[0]} ends too early. Copy it from the card again.`);
      return drawnOnce(frame.source, want, (Number.parseInt(frame.id, 10) - 1) % 6);
    },
    baseOf: async (frame, area) => ({ density: BASE, scatter: [0, 0, 0], scan: frame.scans[0], area }),
  });
  window.sheet = sheet = makeSheet(root, { host: window.sheetHost.host, ...surroundings });
};
