/** The made-up host of the roll sheet in a worker: as in the editor, what it does takes no time of the page's main thread. */
import type { RpcMessage } from "../../extension/rpc.ts";
import { type FakeHost, makeFakeHost, type Want } from "./fake-host.ts";
import type { SheetPageOptions } from "./sheet.page.ts";
import { drawnOnce, BASE } from "./wedge.ts";

/** The part of a worker's global scope that is used; the page's own types are the ones in force here. */
const scope = globalThis as unknown as {
  onmessage: (event: MessageEvent<RpcMessage | { readonly start: SheetPageOptions }>) => void;
  postMessage(message: RpcMessage, transfer?: readonly Transferable[]): void;
};
let host: FakeHost | undefined;

scope.onmessage = ({ data }) => {
  if (!("start" in data)) return host?.host.postMessage(data);
  host = makeFakeHost({
    ...data.start,
    // Codes are handed over, not copied, as the editor does it.
    post: (message) => scope.postMessage(message, codesIn(message)),
    proxyOf: async (frame, want: Want) => drawnOnce(frame.source, want, (Number.parseInt(frame.id, 10) - 1) % 6),
    baseOf: async (frame, area) => ({ density: BASE, scatter: [0, 0, 0], scan: frame.scans[0], area }),
  });
};

function codesIn(message: RpcMessage): Transferable[] {
  const codes = (message as { value?: { codes?: Uint16Array<ArrayBuffer> } }).value?.codes;
  return codes ? [codes.buffer] : [];
}
