/** Reads a verb's arguments, and writes its usage and help. */
import { parseArgs } from "node:util";
import { nearest } from "../recipe/problems/nearest.ts";
import { UsageError, type Verb } from "./verb.ts";

/** Options that every verb takes. */
export const COMMON = {
  json: { help: "print one JSON object on standard output, and nothing else" },
  quiet: { help: "print problems and findings alone, and show no progress" },
  help: { short: "h", help: "show this text" },
} as const;

/**
 * Reads a verb's arguments.
 * @throws UsageError with a sentence, and the option that was probably meant.
 */
export function readArguments(
  verb: Verb,
  args: readonly string[],
): { options: Record<string, string | boolean | undefined>; files: string[] } {
  const known = { ...verb.options, ...COMMON };
  const parsed = parseArgs({
    args: [...args],
    strict: false,
    allowPositionals: true,
    tokens: true,
    options: Object.fromEntries(
      Object.entries(known).map(([name, spec]) => {
        const type = "value" in spec ? ("string" as const) : ("boolean" as const);
        return [name, "short" in spec && spec.short ? { type, short: spec.short } : { type }];
      }),
    ),
  });
  for (const token of parsed.tokens) {
    if (token.kind !== "option") continue;
    const spec = Object.hasOwn(known, token.name) ? known[token.name as keyof typeof known] : undefined;
    if (!spec) {
      const suggestion = nearest(token.name, Object.keys(known));
      throw new UsageError(
        `"rollbook ${verb.name}" has no option ${token.rawName}.${suggestion ? ` Did you mean --${suggestion}?` : ""}`,
      );
    }
    const takes = "value" in spec && spec.value !== undefined;
    if (takes && (token.value === undefined || (!token.inlineValue && /^--?[a-z]/.test(token.value))))
      throw new UsageError(`${token.rawName} needs a value: ${token.rawName} ${String(spec.value)}.`);
    if (!takes && token.value !== undefined) throw new UsageError(`${token.rawName} takes no value.`);
  }
  const [min, max] = verb.files;
  const files = parsed.positionals;
  const help = parsed.values.help === true;
  if (!help && files.length < min)
    throw new UsageError(`"rollbook ${verb.name}" needs ${min === 1 ? "a recipe" : `${min} files`}: ${usageOf(verb)}`);
  if (!help && files.length > max)
    throw new UsageError(
      `"rollbook ${verb.name}" takes ${max === 1 ? "one recipe" : `${max} files`}: ${usageOf(verb)}`,
    );
  return { options: parsed.values as Record<string, string | boolean | undefined>, files };
}

export const usageOf = (verb: Verb): string => `rollbook ${verb.name} ${verb.usage}`;

/** A verb's help. */
export function helpOf(verb: Verb): string {
  const options = Object.entries<{ value?: string; short?: string; help: string }>({ ...verb.options, ...COMMON });
  const heads = options.map(([name, o]) => `${o.short ? `-${o.short}, ` : ""}--${name}${o.value ? ` ${o.value}` : ""}`);
  const width = Math.max(...heads.map((h) => h.length));
  return [
    usageOf(verb),
    "",
    verb.details,
    "",
    ...options.map(([, o], i) => `  ${heads[i].padEnd(width)}  ${o.help}`),
    "",
    `Example: ${verb.example}`,
  ].join("\n");
}
