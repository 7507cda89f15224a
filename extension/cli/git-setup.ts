/** `rollbook git-setup`: registers the recipe's comparison and merge with git. */
import { join } from "node:path";
import { openGit } from "../work/review/git/git.ts";
import { type Part, switchOff, switchOn } from "../work/review/git/git-setup.ts";
import { DRY_RUN_OPTION, isDryRun } from "./dry-run.ts";
import { PROGRAMS } from "./programs.ts";
import { EXIT, flag, text, UsageError, type Verb } from "./verb.ts";

export const gitSetup: Verb = {
  name: "git-setup",
  summary: "let git compare and merge recipes by their values",
  usage: "[--only diff|merge] [--shared] [--command COMMAND] [--undo]",
  details:
    "Writes git settings of this clone: a text conversion, so that git diff and git log -p show resolved recipes, and a\n" +
    "merge driver, so that people who edited different frames or values never conflict. Which files they are for is\n" +
    "written to the clone's own attributes, or with --shared to .gitattributes, which is committed for everybody;\n" +
    "clones without the settings then go on as before. --undo removes exactly what was written.\n" +
    "VS Code asks git for converted texts too: who compares recipes there wants --only merge.",
  example: "rollbook git-setup --shared",
  options: {
    only: { value: "diff|merge", help: "only the text conversion, or only the merge driver" },
    shared: { help: "write the attributes to .gitattributes instead of this clone alone" },
    command: { value: "COMMAND", help: "command by which git calls rollbook (default: this program)" },
    undo: { help: "remove what was written" },
    ...DRY_RUN_OPTION,
  },
  files: [0, 0],
  async run(call) {
    const { terminal, signal } = call;
    const git = await openGit(process.cwd(), undefined, signal);
    const undo = flag(call, "undo");
    const only = text(call, "only");
    if (only !== undefined && only !== "diff" && only !== "merge")
      throw new UsageError(`--only takes diff or merge, not "${only}".`);
    const parts: readonly Part[] = only === undefined ? ["diff", "merge"] : [only];
    const command = text(call, "command") ?? [process.execPath, join(PROGRAMS, "rollbook.mjs")].map(quoted).join(" ");
    const dry = isDryRun(call);
    const done = undo
      ? await switchOff(git, { dry })
      : await switchOn(git, command, { shared: flag(call, "shared"), parts, dry });
    const [removed, written] = dry ? ["Would remove:", "Would write:"] : ["Removed:", "Written:"];
    terminal.print(undo ? (done.length > 0 ? removed : "There is nothing to remove.") : written);
    for (const line of done) terminal.print(`  ${line}`);
    if (!undo && !dry)
      terminal.print('"rollbook git-setup --undo" removes it; git diff --no-textconv shows the plain text.');
    terminal.result({ ok: true, undo, done, ...(dry ? { dryRun: true } : {}) });
    return EXIT.good;
  },
};

/** As one word for the shell that git starts. */
const quoted = (word: string): string => `'${word.replaceAll("'", "'\\''")}'`;
