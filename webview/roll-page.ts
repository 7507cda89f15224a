/** What the pages over a roll begin with: their root, their workers, and the editor as their host. */
import { stateSaver } from "./kept-state.ts";
import type { Host } from "./preview/session.ts";
import { useTranslationsOf } from "./translate.ts";

declare function acquireVsCodeApi(): Host;

/** A webview may not load workers from the editor's resources, only from a blob; so the file is fetched first. */
export async function workerFrom(address: string | undefined): Promise<Worker | undefined> {
  if (!address) return undefined;
  const text = await (await fetch(address)).text();
  const blob = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
  try {
    return new Worker(blob);
  } finally {
    URL.revokeObjectURL(blob);
  }
}

/** To be called once, before anything is shown. */
export function openRollPage(): { readonly root: HTMLElement; readonly host: Host } {
  const root = document.getElementById("panel");
  if (!root) throw new Error("The page has no place for the panel.");
  useTranslationsOf(root);
  const api = acquireVsCodeApi();
  const keeper = stateSaver(api, root);
  // The editor restores a panel from its state alone, so the state names the recipe too.
  const host: Host = {
    postMessage: (message) => api.postMessage(message),
    getState: () => keeper.getState(),
    setState: (state) => keeper.setState({ ...(state as object), document: root.dataset["document"] }),
  };
  host.setState(host.getState() ?? {});
  return { root, host };
}
