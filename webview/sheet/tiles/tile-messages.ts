/** What the sheet sends to its worker, over the channel of extension/rpc.ts. */
import type { Proxy } from "../../../extension/messages.ts";
import type { TileRequest } from "./tile-service.ts";

export interface TileRequests {
  paint: { request: TileRequest; reply: ImageBitmap | null };
}

export interface TileEvents {
  /** A proxy, once: its codes are handed over. */
  readonly add: { readonly key: string; readonly proxy: Proxy };
  readonly forget: string;
}
