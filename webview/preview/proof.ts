/** The soft proof: which output it is of, and its table, fetched when it is asked for. */
import { PROOF_SIDE, PROOF_VALUES } from "../../extension/engine/colour/proof-table.ts";
import type { PrintEntry } from "../../extension/messages.ts";
import { isCancelled, reasonOf } from "../reason.ts";
import type { Surface } from "../render/surface.ts";
import { t } from "../translate.ts";
import type { Model } from "./model.ts";
import type { Session } from "./session.ts";

/** Milliseconds. */
const LIMIT = 60_000;

/** The output that is proofed: the one that was chosen, else the first that prints by a profile. */
export const proofedPrint = ({ roll, ui }: Pick<Model, "roll" | "ui">): PrintEntry | undefined =>
  roll?.prints.find(({ output }) => output === ui.proofed) ?? roll?.prints[0];

/** Shows the proof or hides it. It is one of the positive, so that is what comes into view. */
export function toggleProof(session: Session): void {
  const { ui } = session.store.get();
  const proof = !(ui.proof && ui.view === "print");
  session.ui(proof ? { proof, view: "print" } : { proof });
  const print = proofedPrint(session.store.get());
  session.announce(!proof ? t("Proof off") : print ? t("Proof of output {0}", print.output) : noPrints());
}

export const noPrints = (): string =>
  t("No output of this roll is printed by a printer’s profile. Add print with paper and profile to an output.");

/** Keeps the model's proof the one that is asked for. */
export function followProof(session: Session, surface: () => Surface): void {
  const { store, client } = session;
  let requested: string | undefined;
  let running: AbortController | undefined;

  function fetchProof({ output }: PrintEntry, screen: Surface["space"], key: string): void {
    const controller = (running = new AbortController());
    client.request("proof", { output, screen }, { signal: controller.signal, limit: LIMIT }).then(
      ({ table }) => {
        if (requested === key) store.set({ proof: { key, table: wordsOf(table) } });
      },
      (error: unknown) => {
        if (requested !== key || isCancelled(error)) return;
        const proofFailure = reasonOf(error);
        store.set({ proofFailure, announcement: proofFailure });
      },
    );
  }

  store.on((model) => {
    const print = model.ui.proof && model.roll?.trusted ? proofedPrint(model) : undefined;
    const screen = surface().space;
    const key = print && JSON.stringify([print.output, print.key, screen]);
    if (key === requested) return;
    requested = key;
    running?.abort();
    running = undefined;
    store.set({ proof: undefined, proofFailure: undefined });
    if (print && key) fetchProof(print, screen, key);
  });
}

/** @throws RangeError where the bytes are not those of a table */
function wordsOf(bytes: Uint8Array): Uint16Array {
  const values = PROOF_SIDE ** 3 * PROOF_VALUES;
  if (bytes.byteLength !== 2 * values) throw new RangeError(`A proof came with ${bytes.byteLength} bytes.`);
  return new Uint16Array(bytes.slice().buffer);
}
