/** The worker of the roll sheet: it paints tiles off the page's thread. */
import { createRpcServer, dispatchEvent, type RpcMessage } from "../../../extension/rpc.ts";
import type { TileEvents, TileRequests } from "./tile-messages.ts";
import { makeTileService } from "./tile-service.ts";

const service = makeTileService();

/** The part of a worker's global scope that is used; the page's own types are the ones in force here. */
const scope = globalThis as unknown as {
  onmessage: (event: { data: unknown }) => void;
  postMessage(message: RpcMessage, transfer?: readonly Transferable[]): void;
};

const server = createRpcServer<TileRequests>({ paint: async (request) => service.paint(request) ?? null }, (message) =>
  scope.postMessage(message, message.kind === "reply" && message.value instanceof ImageBitmap ? [message.value] : []),
);

scope.onmessage = ({ data }) => {
  const handled = dispatchEvent<TileEvents>(data, {
    add: ({ key, proxy }) => service.add(key, proxy),
    forget: (key) => service.forget(key),
  });
  if (!handled) server.receive(data);
};
