/** `rollbook language-server`: recipes in any editor that speaks the Language Server Protocol. */
import { flag, UsageError, type Verb } from "./verb.ts";

export const languageServer: Verb = {
  name: "language-server",
  summary: "serve editors over the Language Server Protocol",
  usage: "--stdio",
  details:
    "Speaks the Language Server Protocol on standard input and output: problems, hovers, completions, definitions, quick\n" +
    "fixes, moves of values, rename, folding, outline, links and formatting for *.roll.yaml and *.stock.yaml. An editor\n" +
    "starts it; docs/other-editors.md shows how. It decodes no pictures and opens no network connection.",
  example: "rollbook language-server --stdio",
  options: { stdio: { help: "speak on standard input and output, the one way there is" } },
  files: [0, 0],
  async run(call) {
    if (!flag(call, "stdio")) throw new UsageError("rollbook language-server speaks on standard streams: add --stdio.");
    // Loaded here, so that no other verb pays for it.
    const { serve } = await import("../language-server/serve.ts");
    serve(process.stdin, process.stdout);
    // The protocol's exit ends the process, and so does the end of its input.
    return new Promise<number>(() => {});
  },
};
