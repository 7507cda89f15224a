/** The panel on a page of its own, with a host that is not there: for tests, and for looking at it while one works on it. */
import type { Proxy } from "../../extension/messages.ts";
import { PROOF_SIDE, PROOF_VALUES } from "../../extension/engine/colour/proof-table.ts";
import { makePanel, type Panel } from "../../webview/preview/panel.ts";
import "../../webview/preview/preview.css";
import { type FakeHost, makeFakeHost, type Want } from "./fake-host.ts";
import { useTranslations } from "../../webview/translate.ts";
import { marksOf } from "./letters.ts";
import { BASE, wedgeProxy } from "./wedge.ts";

export interface PageOptions {
  readonly text: string;
  readonly stock: string;
  /** Proxies come from the page's own origin instead of being made up. */
  readonly proxies?: boolean;
  /** The graphics of a test machine are imitated; the panel is asked to use them all the same. */
  readonly gpu?: "real" | "never" | "always";
  readonly worker?: boolean;
  readonly surround?: number;
  readonly trusted?: boolean;
  /** Milliseconds that an edit and a picture take. */
  readonly slow?: number;
  /** Density that is read wherever somebody reads the base. */
  readonly base?: readonly [number, number, number];
  /** Whether the printer's profile can be used. */
  readonly proof?: boolean;
  /** Puts a mark without letters in the place of every text that can be translated. */
  readonly marked?: boolean;
}

declare global {
  interface Window {
    openPanel(options: PageOptions): void;
    panel: Panel;
    fake: FakeHost;
  }
}

async function fetched(source: string, scan: string, want: Want): Promise<Proxy> {
  const kind = want === "thumbnail" || want === "tile" ? "thumbnail" : "picture";
  const about = (await (await fetch(`/proxies/${scan}.${kind}.json`)).json()) as Omit<Proxy, "codes" | "source">;
  const codes = new Uint8Array(await (await fetch(`/proxies/${scan}.${kind}.bin`)).arrayBuffer());
  return { ...about, codes, source };
}

/** A paper that shows greys from 60 to 220 whatever the colour, and has no colours whose channels part by more than 0.2. */
function paleProof(): Uint16Array {
  const table = new Uint16Array(PROOF_SIDE ** 3 * PROOF_VALUES);
  for (let i = 0; i < PROOF_SIDE ** 3; i++) {
    const rgb = [0, 1, 2].map((c) => (Math.floor(i / PROOF_SIDE ** c) % PROOF_SIDE) / (PROOF_SIDE - 1));
    const grey = 257 * (60 + 160 * rgb[1]!);
    const apart = Math.max(...rgb) - Math.min(...rgb) > 0.2 ? 6554 : 0;
    table.set([grey, grey, grey, apart], PROOF_VALUES * i);
  }
  return table;
}

window.openPanel = (options) => {
  let panel: Panel | undefined;
  window.fake = makeFakeHost({
    text: options.text,
    stock: options.stock,
    surround: options.surround,
    trusted: options.trusted,
    slow: options.slow,
    post: (message) => setTimeout(() => panel?.receive(message)),
    async proxyOf(frame, want) {
      if (frame.scans[0].includes("BROKEN"))
        throw new Error(`${frame.scans[0]} ends too early. Copy it from the card again.`);
      if (options.proxies) return await fetched(frame.source, frame.scans[0], want);
      return wedgeProxy(frame.source, want, Number.parseInt(frame.id, 10) - 1);
    },
    ...(options.proof ? { proofOf: async () => new Uint8Array(paleProof().buffer) } : {}),
    baseOf: async (frame, area) => ({
      density: options.base ?? [BASE[0] + 0.0004, BASE[1], BASE[2]],
      scatter: [0.004, 0.005, 0.006],
      scan: frame.scans[0],
      area,
    }),
  });
  const makeWorker = async (): Promise<Worker | undefined> => {
    if (!options.worker) return undefined;
    const text = await (await fetch("/preview-worker.js")).text();
    return new Worker(URL.createObjectURL(new Blob([text], { type: "text/javascript" })));
  };
  if (options.marked) useTranslations(marksOf());
  const root = document.getElementById("panel");
  if (!root) throw new Error("The page has no place for the panel.");
  window.panel = panel = makePanel(root, { host: window.fake.host, makeWorker, gpu: options.gpu ?? "always" });
};
