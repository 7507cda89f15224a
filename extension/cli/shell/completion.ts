/** Shell completion, made from the table of verbs. */
import { COMMON } from "../arguments.ts";
import { EXIT, type OptionSpec, UsageError, type Verb } from "../verb.ts";

const SHELLS = ["bash", "zsh", "fish", "powershell"] as const;
type Shell = (typeof SHELLS)[number];

/** A verb as a completion script needs it: names without texts that a shell would read anything into. */
interface Entry {
  readonly name: string;
  readonly summary: string;
  readonly options: readonly (OptionSpec & { readonly name: string })[];
}

export const completion = (table: () => readonly Verb[]): Verb => ({
  name: "completion",
  summary: "print a script that completes verbs and options in a shell",
  usage: "bash|zsh|fish|powershell",
  details:
    "Prints a completion script for one shell, made from the verbs of this version. Load it at the start of a shell:\n" +
    '  bash        eval "$(rollbook completion bash)"            in ~/.bashrc\n' +
    '  zsh         eval "$(rollbook completion zsh)"             in ~/.zshrc, after compinit\n' +
    "  fish        rollbook completion fish | source             in ~/.config/fish/config.fish\n" +
    "  PowerShell  rollbook completion powershell | Out-String | Invoke-Expression   in $PROFILE",
  example: "rollbook completion bash",
  options: {},
  files: [1, 1],
  run({ files, terminal }) {
    const shell = files[0] as Shell;
    if (!SHELLS.includes(shell)) throw new UsageError(`Shells are ${SHELLS.join(", ")}, not "${shell}".`);
    const script = completionScript(shell, table());
    terminal.bytes(Buffer.from(script));
    terminal.result({ ok: true, shell, script });
    return Promise.resolve(EXIT.good);
  },
});

/** @returns the script, with a line break at its end */
export function completionScript(shell: Shell, verbs: readonly Verb[]): string {
  const entries = verbs
    .filter((verb) => !verb.internal)
    .map(({ name, summary, options }): Entry => {
      const all: Record<string, OptionSpec> = { ...options, ...COMMON };
      return { name, summary, options: Object.entries(all).map(([option, spec]) => ({ name: option, ...spec })) };
    });
  return `${writers[shell](entries).join("\n")}\n`;
}

const writers: Record<Shell, (entries: readonly Entry[]) => string[]> = {
  bash: (entries) => [
    "# rollbook completion for bash",
    "_rollbook() {",
    "  local word=${COMP_WORDS[COMP_CWORD]} options=",
    '  if [ "$COMP_CWORD" -eq 1 ]; then',
    `    COMPREPLY=($(compgen -W '${names(entries)} help' -- "$word"))`,
    "    return",
    "  fi",
    "  case ${COMP_WORDS[1]} in",
    ...entries.map(({ name, options }) => `    ${name}) options='${flags(options).join(" ")}' ;;`),
    `    help) COMPREPLY=($(compgen -W '${names(entries)}' -- "$word")); return ;;`,
    "  esac",
    '  case $word in -*) COMPREPLY=($(compgen -W "$options" -- "$word")) ;; esac',
    "}",
    "complete -o default -o filenames -F _rollbook rollbook",
  ],
  zsh: (entries) => [
    "#compdef rollbook",
    "_rollbook() {",
    "  local -a verbs",
    "  verbs=(",
    ...entries.map(({ name, summary }) => `    ${single(`${name}:${summary}`)}`),
    "    'help:show the help of a verb'",
    "  )",
    "  if (( CURRENT == 2 )); then _describe -t verbs verb verbs; return; fi",
    "  case ${words[2]} in",
    ...entries.map(
      ({ name, options }) => `    ${name}) _arguments -S ${options.map(zshOption).join(" ")} '*:file:_files' ;;`,
    ),
    "    help) _describe -t verbs verb verbs ;;",
    "  esac",
    "}",
    "compdef _rollbook rollbook",
  ],
  fish: (entries) => [
    "# rollbook completion for fish",
    "complete -c rollbook -f -n __fish_use_subcommand -a help -d 'show the help of a verb'",
    ...entries.flatMap(({ name, summary, options }) => [
      `complete -c rollbook -f -n __fish_use_subcommand -a ${name} -d ${fishText(summary)}`,
      ...options.map(
        (o) =>
          `complete -c rollbook -n '__fish_seen_subcommand_from ${name}' -l ${o.name}` +
          `${o.short ? ` -s ${o.short}` : ""}${o.value ? " -r" : ""} -d ${fishText(summaryText(o.help))}`,
      ),
    ]),
    `complete -c rollbook -f -n '__fish_seen_subcommand_from help' -a '${names(entries)}'`,
  ],
  powershell: (entries) => [
    "# rollbook completion for PowerShell",
    "Register-ArgumentCompleter -Native -CommandName rollbook -ScriptBlock {",
    "  param($word, $line, $cursor)",
    "  $options = @{",
    ...entries.map(
      ({ name, options }) =>
        `    '${name}' = @(${flags(options)
          .map((flag) => `'${flag}'`)
          .join(", ")})`,
    ),
    "  }",
    "  $summaries = @{",
    ...entries.map(({ name, summary }) => `    '${name}' = '${summary.replaceAll("'", "''")}'`),
    "    'help' = 'show the help of a verb'",
    "  }",
    "  $words = @($line.CommandElements | ForEach-Object { $_.ToString() })",
    "  if ($words.Count -le 1 -or ($words.Count -eq 2 -and $word) -or $words[1] -eq 'help') {",
    '    $summaries.Keys | Where-Object { $_ -like "$word*" } | Sort-Object | ForEach-Object {',
    "      [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $summaries[$_])",
    "    }",
    "  } else {",
    '    $options[$words[1]] | Where-Object { $_ -like "$word*" } | ForEach-Object {',
    "      [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterName', $_)",
    "    }",
    "  }",
    "}",
  ],
};

const names = (entries: readonly Entry[]): string => entries.map(({ name }) => name).join(" ");
const flags = (options: Entry["options"]): string[] =>
  options.flatMap(({ name, short }) => (short ? [`--${name}`, `-${short}`] : [`--${name}`]));
/** A description has room for a line alone. */
const summaryText = (help: string): string => help.split(/[:;(]/)[0].trim();
const single = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`;
const fishText = (text: string): string => `'${text.replaceAll("\\", "\\\\").replaceAll("'", "\\'")}'`;

function zshOption({ name, short, value, help }: Entry["options"][number]): string {
  const text = `[${summaryText(help).replaceAll(/[[\]]/g, "")}]${value ? `:${value.replaceAll(":", "")}:_files` : ""}`;
  return short ? `{-${short},--${name}}${single(text)}` : single(`--${name}${text}`);
}
