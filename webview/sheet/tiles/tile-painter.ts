/** The page's side of the painting of tiles: in a worker, or by the page itself where workers are refused. */
import { createEmitter, createRpcClient, type Post } from "../../../extension/rpc.ts";
import type { Proxy } from "../../../extension/messages.ts";
import type { TileEvents, TileRequests } from "./tile-messages.ts";
import { makeTileService, type TileRequest } from "./tile-service.ts";

export interface TilePainter {
  /** Hands a proxy over; its bytes are no longer the caller's. */
  add(key: string, proxy: Proxy): void;
  forget(key: string): void;
  paint(request: TileRequest): Promise<ImageBitmap | null>;
}

export function makeTilePainter(worker: Worker | undefined): TilePainter {
  return worker ? fromWorker(worker) : fromPage();
}

function fromPage(): TilePainter {
  const service = makeTileService();
  return { ...service, paint: async (request) => service.paint(request) ?? null };
}

function fromWorker(worker: Worker): TilePainter {
  const post: Post = (message, transfer = []) => worker.postMessage(message, transfer as Transferable[]);
  const client = createRpcClient<TileRequests>(post);
  const emit = createEmitter<TileEvents>(post);
  worker.onmessage = ({ data }) => client.receive(data);
  return {
    add: (key, proxy) => emit("add", { key, proxy }, [proxy.codes.buffer]),
    forget: (key) => emit("forget", key),
    paint: (request) => client.request("paint", request),
  };
}
