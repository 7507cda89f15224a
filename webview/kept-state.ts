/** A page's state over a reload: kept by the editor, and by the host, who writes it down at once. */

import type { PageEvents } from "../extension/messages.ts";
import { createEmitter } from "../extension/rpc.ts";

/** What an editor gives a page for its state. */
export interface StateApi {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
}

/** Gestures change the state with every move; the host learns of it when they come to rest, or after this long. */
const PAUSE = 150;

/** @param root holds what the host kept: `data-kept`, as JSON. The newer of both states holds. */
export function stateSaver(api: StateApi, root: HTMLElement): Pick<StateApi, "getState" | "setState"> {
  const kept: unknown = JSON.parse(root.dataset["kept"] ?? "null");
  if (timeOf(kept) > timeOf(api.getState())) api.setState(kept);
  const emit = createEmitter<PageEvents>((message) => api.postMessage(message));
  let pendingSave: ReturnType<typeof setTimeout> | undefined;
  return {
    getState: () => api.getState(),
    setState(state) {
      const stamped = { ...(state as object), at: Date.now() };
      api.setState(stamped);
      pendingSave ??= setTimeout(() => {
        pendingSave = undefined;
        emit("keep", api.getState());
      }, PAUSE);
    },
  };
}

function timeOf(state: unknown): number {
  const at: unknown = typeof state === "object" && state !== null && "at" in state ? state.at : undefined;
  return typeof at === "number" ? at : 0;
}
