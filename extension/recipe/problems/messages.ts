/** Words the validator's errors. */
import { CURRENT_VERSION } from "../version.ts";
import { describeKey } from "../schema/describe.ts";
import type { KeyDescription } from "../schema/key-description.ts";
import type { SchemaError } from "../generated/validate.js";
import { nearest } from "./nearest.ts";
import { type RecipePath, pathText, type TextRange } from "../path.ts";
import { rangeOf, nodeAt } from "../yaml/positions.ts";
import { type Problem, problem } from "../problems.ts";
import { formatNumber } from "../yaml/scalar.ts";
import { type List, target, type AstNode } from "../yaml/ast.ts";
import type { Subject } from "./subject.ts";

/** One complaint of the validator in words of our own, at the exact text; undefined when it says nothing new. */
export function validationMessage(
  subject: Subject,
  error: SchemaError,
  path: RecipePath,
  about: KeyDescription | undefined,
): Problem | undefined {
  switch (error.keyword) {
    case "additionalProperties":
      return unknownKey(subject, path, String(error.params.additionalProperty), about);
    case "required":
      return missingKey(subject, path, String(error.params.missingProperty));
    case "type":
      return wrongType(subject, path, [error.params.type].flat().map(String), about);
    case "minimum":
    case "maximum":
      return outOfRange(subject, path, about, error);
    case "enum":
    case "const":
      return notOneOf(subject, path, about);
    case "minItems":
    case "maxItems":
    case "additionalItems":
      return wrongLength(subject, path, about);
    case "minLength":
    case "maxLength":
      return wrongSize(subject, path, error);
    case "pattern":
      return about?.enum ? notOneOf(subject, path, about) : wrongForm(subject, path, about);
    default:
      throw new Error(`The schema uses the keyword ${error.keyword}, which has no message yet.`);
  }
}

const valueRange = (subject: Subject, path: RecipePath): TextRange =>
  rangeOf(subject.ast, path, "value") ?? keyRange(subject, path);

/** The key's text; of a list item the item; of the root the first key. */
function keyRange({ ast }: Subject, path: RecipePath): TextRange {
  if (path.length > 0) return rangeOf(ast, path, "key") ?? [ast.start, ast.end];
  const root = target(ast);
  const first = root?.kind === "mapping" ? root.entries[0]?.key : undefined;
  return first ? [first.start, first.end] : [ast.start, ast.end];
}

/** The value as it is written, shortened for messages. */
function written(subject: Subject, ast: AstNode | undefined): string {
  const at = ast && target(ast);
  if (!at) return "this value";
  if (at.kind === "mapping") return "a mapping";
  if (at.kind === "list") return `a list of ${at.items.length}`;
  if (at.value === null) return at.end > at.start ? "null" : "empty";
  const text = typeof at.value === "string" ? JSON.stringify(at.value) : subject.text.slice(at.start, at.end);
  return text.length > 40 ? `${text.slice(0, 38)}…` : text;
}

function unknownKey(subject: Subject, path: RecipePath, key: string, about: KeyDescription | undefined): Problem {
  const here = [...path, key];
  const range = rangeOf(subject.ast, here, "key") ?? keyRange(subject, path);
  if (about?.keyPattern) {
    const upper = key.toUpperCase().trim();
    const fitting = new RegExp(about.keyPattern).test(upper) ? upper : undefined;
    const hint = fitting ? `Write "${fitting}".` : 'Write it as on the film\'s edge, as in "07" or "12A".';
    return problem(
      "bad-frame-id",
      range,
      here,
      `${JSON.stringify(key)} is not a frame id: up to three digits and at most one capital letter. ${hint}`,
      { data: { key, suggestion: fitting } },
    );
  }
  const allowed = about?.keys ?? [];
  if (key === "<<")
    return problem(
      "unknown-key",
      range,
      here,
      "YAML 1.2 has no merge key <<. Write the keys themselves; what a roll has in common is stated once, at its top.",
      { data: { key, allowed } },
    );
  const suggestion = nearest(key, allowed);
  const where = path.length === 0 ? `A ${subject.kind}` : pathText(path);
  const elsewhere = suggestion === undefined ? homeOf(subject, key) : undefined;
  const hint =
    suggestion !== undefined
      ? `Did you mean ${suggestion}?`
      : elsewhere !== undefined
        ? `It belongs under ${elsewhere}.`
        : `Allowed are: ${allowed.join(", ")}.`;
  return problem("unknown-key", range, here, `${where} has no key ${JSON.stringify(key)}. ${hint}`, {
    data: { key, suggestion, allowed },
  });
}

/** The mapping near the root that knows the key: contrast stands under positive. */
function homeOf({ kind }: Subject, key: string): string | undefined {
  for (const home of describeKey(kind, [])?.keys ?? []) if (describeKey(kind, [home])?.keys?.includes(key)) return home;
  return kind === "roll" && describeKey(kind, ["frames", "1"])?.keys?.includes(key) ? "a frame" : undefined;
}

function missingKey(subject: Subject, path: RecipePath, key: string): Problem {
  const about = describeKey(subject.kind, [...path, key]);
  const example = about?.enum?.[0] ?? about?.examples?.[0];
  const where = path.length === 0 ? `The ${subject.kind}` : pathText(path);
  const add = example === undefined ? `Add the key ${key}.` : `Add, for example, ${key}: ${String(example)}`;
  return problem("missing-key", keyRange(subject, path), path, `${where} needs the key ${key}. ${add}`, {
    data: { key },
  });
}

const typeNames: Readonly<Record<string, string>> = {
  object: "a mapping (key: value)",
  array: "a list in brackets",
  string: "a text",
  number: "a number",
  integer: "a whole number",
  boolean: "true or false",
};

function wrongType(
  subject: Subject,
  path: RecipePath,
  expected: readonly string[],
  about: KeyDescription | undefined,
): Problem {
  const at = nodeAt(subject.ast, path)?.value;
  const scalar = at && target(at);
  const wants = expected.map((type) => typeNames[type] ?? type).join(" or ");
  const name = pathText(path);
  if (scalar?.kind === "scalar" && scalar.value === null && scalar.start === scalar.end)
    return problem(
      "empty-value",
      keyRange(subject, path),
      path,
      `${name} has no value. Write ${wants}, or remove the key.`,
      { data: { key: String(path.at(-1)), expected } },
    );
  const hint = typeHint(subject, scalar, expected, about);
  return problem(
    "wrong-type",
    valueRange(subject, path),
    path,
    `${name} is ${written(subject, at)}; it has to be ${wants}. ${hint.text}`.trim(),
    { data: { expected, ...hint.data } },
  );
}

function typeHint(
  subject: Subject,
  at: AstNode | undefined,
  expected: readonly string[],
  about: KeyDescription | undefined,
): { text: string; data?: Problem["data"] } {
  if (
    at?.kind === "scalar" &&
    typeof at.value === "string" &&
    (expected.includes("number") || expected.includes("integer"))
  ) {
    const number = Number(at.value.replaceAll(/[_\s]/g, "").replace(",", "."));
    if (at.value.trim() !== "" && Number.isFinite(number))
      return { text: `Write ${formatNumber(number)}.`, data: { nearest: number } };
  }
  if (at?.kind === "scalar" && typeof at.value === "number" && expected.includes("integer")) {
    const number = Math.round(at.value);
    return { text: `Write ${number}.`, data: { nearest: number } };
  }
  if (at?.kind === "scalar" && typeof at.value === "string" && expected.includes("boolean")) {
    const bool = /^(yes|on|y|true)$/i.test(at.value)
      ? "true"
      : /^(no|off|n|false)$/i.test(at.value)
        ? "false"
        : undefined;
    if (bool) return { text: `YAML 1.2 reads ${at.value} as text. Write ${bool}.`, data: { suggestion: bool } };
  }
  if (at?.kind === "scalar" && at.value !== null && expected.includes("string")) {
    const quoted = JSON.stringify(subject.text.slice(at.start, at.end));
    return { text: `Write it in quotes: ${quoted}.`, data: { quoted } };
  }
  const example = about?.examples?.[0];
  return { text: example === undefined ? "" : `For example: ${String(example)}` };
}

function outOfRange(
  subject: Subject,
  path: RecipePath,
  about: KeyDescription | undefined,
  error: SchemaError,
): Problem {
  const limit = Number(error.params.limit);
  const { minimum, maximum } =
    error.keyword === "minimum"
      ? { minimum: limit, maximum: about?.maximum }
      : { minimum: about?.minimum, maximum: limit };
  const allowed =
    minimum === undefined
      ? `at most ${maximum}`
      : maximum === undefined
        ? `at least ${minimum}`
        : `${minimum} to ${maximum}`;
  const unit = about?.unit ? ` (${about.unit})` : "";
  const message = `${pathText(path)} is ${written(subject, nodeAt(subject.ast, path)?.value)}; allowed is ${allowed}${unit}. The nearest allowed value is ${limit}.`;
  return problem("out-of-range", valueRange(subject, path), path, message, {
    data: { minimum, maximum, nearest: limit },
  });
}

function notOneOf(subject: Subject, path: RecipePath, about: KeyDescription | undefined): Problem {
  const allowed = about?.enum ?? [];
  const at = nodeAt(subject.ast, path)?.value;
  const scalar = at && target(at);
  const name = pathText(path);
  if (scalar?.kind === "scalar" && scalar.value === null && scalar.start === scalar.end)
    return problem(
      "empty-value",
      keyRange(subject, path),
      path,
      `${name} has no value. Write ${orList(allowed)}, or remove the key.`,
      { data: { key: String(path.at(-1)), allowed } },
    );
  const text =
    scalar?.kind === "scalar"
      ? typeof scalar.value === "string"
        ? scalar.value
        : subject.text.slice(scalar.start, scalar.end)
      : "";
  if (path.length === 1 && path[0] === "version")
    return problem(
      "unsupported-version",
      valueRange(subject, path),
      path,
      `This Rollbook reads versions 1 and 2 of the recipe format, not ${written(subject, at)}. Write version: ${CURRENT_VERSION}, or use a newer Rollbook.`,
      { data: { suggestion: CURRENT_VERSION, allowed } },
    );
  const same = allowed.find((value) => String(value) === text);
  if (same !== undefined) {
    // Right but for the quotes: 645 is a number, "645" a format; "90" is a text, 90 a turn.
    const quoted = typeof same === "string" ? JSON.stringify(same) : String(same);
    const how = typeof same === "string" ? `Write it in quotes: ${quoted}.` : `Write it without quotes: ${quoted}.`;
    return problem(
      "wrong-type",
      valueRange(subject, path),
      path,
      `${name} is ${written(subject, at)}; it has to be ${typeof same === "string" ? "a text" : "a number"}. ${how}`,
      { data: { quoted, allowed } },
    );
  }
  const suggestion = nearest(text, allowed);
  const hint = suggestion === undefined ? "" : ` Did you mean ${suggestion}?`;
  return problem(
    "not-one-of",
    valueRange(subject, path),
    path,
    `${name} is ${written(subject, at)}; allowed are ${orList(allowed)}.${hint}`,
    { data: { allowed, suggestion } },
  );
}

function orList(words: readonly (string | number)[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}

function wrongLength(subject: Subject, path: RecipePath, about: KeyDescription | undefined): Problem {
  const list = target(nodeAt(subject.ast, path)?.value ?? subject.ast);
  const count = list?.kind === "list" ? list.items.length : 0;
  const { minItems: min, maxItems: max } = about ?? {};
  const allowed =
    min === max
      ? `exactly ${max}`
      : min === undefined
        ? `at most ${max}`
        : max === undefined
          ? `at least ${min}`
          : `${min} to ${max}`;
  const suggestion =
    list?.kind === "list" && count === 2 * (max ?? 0) ? withDecimalPoints(subject.text, list) : undefined;
  if (suggestion !== undefined)
    return problem(
      "wrong-type",
      valueRange(subject, path),
      path,
      `${pathText(path)} has decimal commas, which end each value. Write ${suggestion}.`,
      { data: { quoted: suggestion } },
    );
  const example = about?.examples?.[0];
  const hint = about?.description && example === undefined ? about.description : `For example: ${String(example)}`;
  return problem(
    "wrong-length",
    valueRange(subject, path),
    path,
    `${pathText(path)} has ${count} ${count === 1 ? "value" : "values"}; it needs ${allowed}. ${hint}`,
    { data: { minimum: min, maximum: max } },
  );
}

/** [0,31, 0,60] as [0.31, 0.60]: pairs of whole numbers with nothing but a comma between them. */
function withDecimalPoints(text: string, list: List): string | undefined {
  const sources = list.items.map(({ value }) => text.slice(value.start, value.end));
  const isPair = (i: number): boolean =>
    /^-?\d+$/.test(sources[i]!) &&
    /^\d+$/.test(sources[i + 1]!) &&
    list.items[i]!.value.end + 1 === list.items[i + 1]!.start;
  const firsts = sources.flatMap((_, i) => (i % 2 === 0 ? [i] : []));
  if (!list.flow || !firsts.every(isPair)) return undefined;
  return `[${firsts.map((i) => `${sources[i]}.${sources[i + 1]}`).join(", ")}]`;
}

function wrongSize(subject: Subject, path: RecipePath, error: SchemaError): Problem {
  const name = pathText(path);
  const limit = Number(error.params.limit);
  const message =
    error.keyword === "minLength"
      ? `${name} is an empty text. Write a name, or remove the key.`
      : `${name} is longer than ${limit} characters. Shorten it; longer text belongs under note.`;
  return problem("wrong-length", valueRange(subject, path), path, message, {
    data: error.keyword === "minLength" ? { minimum: limit } : { maximum: limit },
  });
}

function wrongForm(subject: Subject, path: RecipePath, about: KeyDescription | undefined): Problem {
  const example = about?.examples?.[0];
  const message = `${pathText(path)} is ${written(subject, nodeAt(subject.ast, path)?.value)}, which has the wrong form. ${about?.description ?? ""} For example: ${String(example)}`;
  return problem("wrong-form", valueRange(subject, path), path, message);
}
