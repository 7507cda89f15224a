/** Quick fixes for problems. */
import { CURRENT_VERSION } from "../version.ts";
import type { Problem, ProblemCode } from "../problems.ts";
import type { RecipePath, TextRange } from "../path.ts";
import type { TextChange } from "../edit/edit.ts";
import type { RecipeDocument } from "../problems/document.ts";
import { describeKey } from "../schema/describe.ts";
import { nodeAt } from "../yaml/positions.ts";
import type { Value } from "../yaml/values.ts";
import { changes, fileEdits, replaced, withoutEntry } from "./edits.ts";
import type { FileEdits, Say } from "./types.ts";
import { bare, child, isMapping } from "./scans.ts";
import { valueText } from "./values.ts";

/** A change that solves a problem. */
export interface Fix {
  readonly title: string;
  readonly problem: Problem;
  readonly edits: FileEdits;
  /** The one that is meant nearly always, and that changes nothing but what is wrong. */
  readonly preferred: boolean;
}

/** A fix before it is put into ranges. Without changes there is none. */
interface Draft {
  readonly title: string;
  readonly changes: readonly TextChange[] | undefined;
  readonly preferred?: boolean;
}

interface Case {
  readonly document: RecipeDocument;
  readonly found: Problem;
  readonly t: Say;
}

/** Problems are told by code and data; the words of a message mean nothing here. */
const makers: Partial<Record<ProblemCode, (the: Case) => Draft[]>> = {
  "unknown-key": ({ document, found, t }) => [...renameKey({ document, found, t }), remove({ document, found, t })],
  "forbidden-key": (the) => [removeByRange(the)],
  "missing-key": missingKey,
  "not-a-mapping": ({ document, t }) =>
    document.text.trim() === ""
      ? [
          {
            title: t("Begin the recipe"),
            changes: replaced([0, document.text.length], `version: ${CURRENT_VERSION}\n`),
            preferred: true,
          },
        ]
      : [],
  "unsupported-version": suggested,
  "out-of-range": nearestValue,
  "area-outside": nearestValue,
  "not-one-of": (the) => [...suggested(the), ...otherSpellings(the)],
  "wrong-type": (the) => [...nearestValue(the, true), ...quoted(the), ...suggested(the)],
  "depth-impossible": ({ document, found, t }) =>
    suggested({ document, found, t }).map((draft) => ({ ...draft, preferred: false })),
  "bad-key": quoted,
  "unquoted-frame-id": quoted,
  "bad-frame-id": renameKey,
  "duplicate-key": (the) => [removeByRange(the)],
  "empty-value": (the) => [...otherSpellings(the), remove(the)],
  "tab-indent": ({ document, found: { range }, t }) => [
    {
      title: t("Replace tabs by spaces"),
      changes: replaced(range, "  ".repeat(range[1] - range[0])),
      preferred: document.text.slice(...range).trim() === "",
    },
  ],
  "unknown-tag": ({ document, found: { range }, t }) => {
    const tag = /^![^\s,[\]{}]*[ \t]*/.exec(document.text.slice(range[0]))?.[0];
    return tag
      ? [{ title: t("Remove the tag"), changes: replaced([range[0], range[0] + tag.length], ""), preferred: true }]
      : [];
  },
  "gamma-and-curve": (the) => [
    remove(the),
    remove({ ...the, found: { ...the.found, path: sibling(the.found.path, "curve") } }),
  ],
  "scan-and-scans": (the) =>
    ["scan", "scans", "exposures", "channels"]
      .map((key) => ({ ...the, found: { ...the.found, path: sibling(the.found.path, key) } }))
      .filter(({ document, found }) => document.rangeOf(found.path) !== undefined)
      .map(remove),
  "one-exposure": ({ document, found, t }) => {
    const name = [...found.path, 0].reduce<Value | undefined>(child, document.value);
    const edits = [
      { path: found.path, value: undefined },
      { path: sibling(found.path, "scan"), value: name },
    ];
    return [{ title: t("Write scan instead"), changes: changes(document, edits), preferred: true }];
  },
  "without-effect": (the) => [{ ...remove(the), preferred: true }],
  "no-scan": ({ document, found, t }) => [
    { title: t("Skip this frame"), changes: changes(document, [{ path: [...found.path, "skip"], value: true }]) },
  ],
  "duplicate-output": anotherName,
  "not-ascending": sortPoints,
  "missing-profile": suggestedFile,
  "missing-scan": suggestedFile,
  "missing-stock": suggestedFile,
};

/** Codes that have a fix, whatever the case. */
export const fixableCodes = Object.keys(makers) as ProblemCode[];

/** Everything that would solve the problems at a range of the text. */
export function fixes(document: RecipeDocument, problems: readonly Problem[], [start, end]: TextRange, t: Say): Fix[] {
  return problems
    .filter(({ range }) => range[0] <= end && range[1] >= start)
    .flatMap((found) => fixesOf(document, found, t));
}

export function fixesOf(document: RecipeDocument, found: Problem, t: Say): Fix[] {
  const drafts = makers[found.code]?.({ document, found, t }) ?? [];
  return drafts.flatMap(({ title, changes: made, preferred = false }) =>
    made ? [{ title, problem: found, edits: fileEdits(document, made), preferred }] : [],
  );
}

/** All fixes that are safe, as one edit; those that would touch the same text as an earlier one are left out. */
export function fixAll(document: RecipeDocument, problems: readonly Problem[], t: Say): FileEdits | undefined {
  const made: TextChange[] = [];
  for (const found of problems) {
    const safe = makers[found.code]?.({ document, found, t }).find(
      ({ preferred, changes: some }) => preferred && some,
    )?.changes;
    if (safe?.every((one) => made.every((other) => one.start >= other.end || one.end <= other.start)))
      made.push(...safe);
  }
  made.sort((a, b) => a.start - b.start);
  return made.length > 0 ? fileEdits(document, made) : undefined;
}

const sibling = (path: RecipePath, key: string): RecipePath => [...path.slice(0, -1), key];

function renameKey({ document, found, t }: Case): Draft[] {
  const { suggestion } = found.data ?? {};
  const parent = found.path.slice(0, -1).reduce<Value | undefined>(child, document.value);
  if (suggestion === undefined || (isMapping(parent) && Object.hasOwn(parent, suggestion))) return [];
  const name = found.code === "bad-frame-id" ? JSON.stringify(suggestion) : String(suggestion);
  return [{ title: t("Change to {0}", name), changes: replaced(found.range, name), preferred: true }];
}

function remove({ document, found, t }: Case): Draft {
  const name = String(found.path.at(-1));
  return { title: t("Remove {0}", name), changes: changes(document, [{ path: found.path, value: undefined }]) };
}

/** For keys that no path leads to, since another key of the same name comes first or the value was not read. */
function removeByRange({ document, found, t }: Case): Draft {
  const mapping = document.ast && nodeAt(document.ast, found.path.slice(0, -1))?.value;
  const entry =
    mapping?.kind === "mapping" ? mapping.entries.find(({ key }) => key.start === found.range[0]) : undefined;
  const end = Math.max(found.range[1], entry?.value.end ?? 0);
  const name = document.text.slice(...bare(document.text, found.range));
  return {
    title: t("Remove {0}", name),
    changes: document.wellFormed && entry ? withoutEntry(document.text, found.range, end) : undefined,
  };
}

function missingKey({ document, found, t }: Case): Draft[] {
  const key = found.data?.key;
  if (key === undefined) return [];
  const path = [...found.path, key];
  const about = describeKey(document.kind, path);
  const value = about?.enum?.[0] ?? about?.examples?.[0];
  // Only the version has a single right value; everything else is a proposal.
  return value === undefined || typeof value === "boolean"
    ? []
    : [
        {
          title: t("Add {0}", `${key}: ${valueText(value)}`),
          changes: changes(document, [{ path, value }]),
          preferred: key === "version",
        },
      ];
}

function nearestValue({ document, found, t }: Case, preferred = false): Draft[] {
  const { nearest } = found.data ?? {};
  const range = document.rangeOf(found.path, "value");
  return nearest === undefined || !range
    ? []
    : [{ title: t("Change to {0}", valueText(nearest)), changes: replaced(range, valueText(nearest)), preferred }];
}

function quoted({ found, t }: Case): Draft[] {
  const text = found.data?.quoted;
  return text === undefined
    ? []
    : [{ title: t("Write it as {0}", text), changes: replaced(found.range, text), preferred: true }];
}

function suggested({ found, t }: Case): Draft[] {
  const { suggestion } = found.data ?? {};
  if (suggestion === undefined) return [];
  const text = asWritten(suggestion);
  return [
    {
      title: t("Change to {0}", text),
      changes: replaced(found.range, text),
      preferred: found.code !== "unsupported-version",
    },
  ];
}

/** `true` of a suggestion is a word of YAML; "135" needs its quotes. */
const asWritten = (value: string | number): string =>
  value === "true" || value === "false" ? value : valueText(value);

function otherSpellings({ document, found, t }: Case): Draft[] {
  const { allowed = [], suggestion } = found.data ?? {};
  return allowed
    .filter((word) => word !== suggestion)
    .slice(0, 12)
    .map((word) => ({
      title: t("Change to {0}", asWritten(word)),
      changes:
        found.code === "empty-value"
          ? changes(document, [{ path: found.path, value: word }])
          : replaced(found.range, asWritten(word)),
    }));
}

function anotherName({ document, found, t }: Case): Draft[] {
  const outputs = child(document.value, "output");
  const names = new Set(
    Array.isArray(outputs) ? outputs.map((output) => valueText(child(output, "name")).toLowerCase()) : [],
  );
  const name = document.text.slice(...bare(document.text, found.range));
  let number = 2;
  while (names.has(`${name}-${number}`.toLowerCase())) number++;
  const other = `${name}-${number}`;
  return [{ title: t("Change to {0}", other), changes: replaced(found.range, valueText(other)) }];
}

function sortPoints({ document, found, t }: Case): Draft[] {
  const at = found.path.lastIndexOf("curve");
  const path = found.path.slice(0, at + 1);
  const points = path.reduce<Value | undefined>(child, document.value);
  if (path.at(-2) !== "positive" || !Array.isArray(points)) return [];
  const pairs = points as readonly (readonly [number, number])[];
  if (new Set(pairs.map(([x]) => x)).size < pairs.length) return [];
  return [
    {
      title: t("Sort the points"),
      changes: changes(document, [{ path, value: pairs.toSorted((a, b) => a[0] - b[0]) }]),
    },
  ];
}

function suggestedFile({ document, found, t }: Case): Draft[] {
  const { suggestion } = found.data ?? {};
  if (typeof suggestion !== "string") return [];
  return [
    {
      title: t("Change to {0}", suggestion),
      changes: changes(document, [{ path: found.path, value: suggestion }]),
      preferred: true,
    },
  ];
}
