/** A thread of the demo's maker: takes pieces to make, one after the other, and writes each file whole or not at all. */
import { renameSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { parentPort } from "node:worker_threads";
import { makeFolder } from "../extension/scans/files/make-folder.ts";
import { makeScan, type Piece } from "./make-scan.ts";
import { ROLLS } from "./roll-plan.ts";

/** What the maker asks for: a piece of a roll (by its place in the plan), to be written to `path`. */
export interface MakeRequest {
  readonly roll: number;
  readonly piece: Piece;
  readonly path: string;
}

const port = parentPort;
if (!port) throw new Error("demo-worker runs as a worker thread of dist/demo.mjs; start that instead.");

port.on("message", (request: MakeRequest) => {
  const bytes = makeScan(ROLLS[request.roll], request.piece);
  makeFolder(dirname(request.path));
  const half = `${request.path}.part`;
  writeFileSync(half, bytes);
  renameSync(half, request.path);
  port.postMessage(request.path);
});
