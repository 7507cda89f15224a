/**
 * The doors by which texts and bytes from elsewhere come in, each as one function that must return: an answer or a
 * refusal of ours is well, anything else (another error, no end, a broken promise about the result) is a find.
 */
import type { PreviewRequests } from "../../extension/messages.ts";
import { createRpcServer } from "../../extension/rpc.ts";
import { parseRecipe } from "../../extension/recipe/problems/document.ts";
import { applyChanges, editRecipe, RecipeEditError } from "../../extension/recipe/edit/edit.ts";
import { formatRecipe } from "../../extension/recipe/edit/layout/format.ts";
import { resolveRoll } from "../../extension/recipe/resolve/resolve.ts";
import { infoFromExif } from "../../extension/scans/info.ts";
import { readJpegExif } from "../../extension/scans/jpeg-exif.ts";
import { parseProxy } from "../../extension/scans/proxy.ts";
import { recognise } from "../../extension/scans/recognise.ts";
import { ScanError } from "../../extension/scans/errors.ts";
import { memorySource } from "../../extension/scans/files/source.ts";
import { profileTransfer } from "../../extension/scans/picture/transfer.ts";

/** A promise about a result that was not kept. */
class Broken extends Error {}

function hold(kept: boolean, promise: string): void {
  if (!kept) throw new Broken(promise);
}

/** Everything that a text goes through in an editor. */
export function yamlDoor(bytes: Uint8Array): void {
  const text = new TextDecoder().decode(bytes);
  const document = parseRecipe(text, { file: "rolls/a.roll.yaml" });
  for (const { range, message } of document.problems) {
    hold(range[0] >= 0 && range[0] <= range[1] && range[1] <= text.length, "a problem lies in the text");
    hold(message !== "", "a problem says something");
  }
  const resolved = resolveRoll(document);
  for (const frame of resolved.frames) resolved.originOf(frame.id, ["positive", "contrast"]);
  const formatted = formatRecipe(text);
  hold(formatRecipe(formatted) === formatted, "what is formatted stays");
  try {
    const edited = applyChanges(text, editRecipe(text, [{ path: ["positive", "exposure"], value: 0.5 }]));
    const again = parseRecipe(edited, { file: "rolls/a.roll.yaml" });
    hold(again.rangeOf(["positive", "exposure"]) !== undefined, "an edit is in the text");
  } catch (error) {
    if (!(error instanceof RecipeEditError)) throw error;
  }
  hold(({} as { polluted?: unknown }).polluted === undefined, "no prototype is reached");
}

/** Everything that reads headers, without a decoder. */
export function metadataDoor(bytes: Uint8Array): void {
  const source = memorySource(bytes);
  try {
    const found = recognise("a.dng", source);
    const exif = found.tiff ?? (found.exifJpegAt === undefined ? undefined : readJpegExif(source, found.exifJpegAt));
    const info = infoFromExif(exif);
    for (const [name, value] of Object.entries(info)) {
      hold(typeof value !== "number" || Number.isFinite(value), `${name} is a number`);
      hold(
        // eslint-disable-next-line no-control-regex
        typeof value !== "string" || !/[\u0000-\u001f\u007f-\u009f]/.test(value),
        `${name} has no control characters`,
      );
    }
  } catch (error) {
    if (!(error instanceof ScanError)) throw error;
  }
  const transfer = profileTransfer(Buffer.from(bytes));
  for (const channel of transfer ?? []) hold(!Number.isNaN(channel(0.5)), "a curve gives a number");
  const proxy = parseProxy(bytes);
  hold(proxy === undefined, "no proxy comes from elsewhere");
}

/** What the panel's page may send to the host: every request with a number gets exactly one answer. */
export async function messageDoor(bytes: Uint8Array): Promise<void> {
  let message: unknown;
  try {
    message = JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return;
  }
  const answers: unknown[] = [];
  const handlers = { select: () => Promise.resolve({}), edit: () => Promise.reject(new Error("no")) };
  const server = createRpcServer<PreviewRequests>(handlers as never, (answer) => answers.push(answer));
  for (const one of Array.isArray(message) ? (message as unknown[]) : [message]) {
    answers.length = 0;
    server.receive(one);
    await new Promise((done) => setImmediate(done));
    const asked = one as { kind?: unknown; id?: unknown } | null;
    const isRequest = typeof asked === "object" && asked?.kind === "request" && typeof asked.id === "number";
    hold(answers.length === (isRequest ? 1 : 0), "one request, one answer");
  }
  server.close();
}
