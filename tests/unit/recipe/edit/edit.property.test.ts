import fc from "../../../properties.ts";
import { describe, expect, test } from "vitest";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { applyChanges, editRecipe, type TextChange } from "../../../../extension/recipe/edit/edit.ts";
import { formatRecipe } from "../../../../extension/recipe/edit/layout/format.ts";
import { frameId, text as anyText, word, type Written, written } from "../arbitrary.ts";

type Path = (string | number)[];
type Data = Record<string, unknown>;
interface Step {
  path: Path;
  value: unknown;
}

/** Shrinking a failure of these large values is cut short. */
const runs = (numRuns: number) => ({ numRuns, interruptAfterTimeLimit: 20_000 });
const step = (path: Path, value: unknown): Step => ({ path, value });

const parse = (text: string) => parseRecipe(text, { file: "rolls/a.roll.yaml" });
const comments = (text: string) => (text.match(/# (?:note|trail) \d+/g) ?? []).toSorted();

const number = fc.integer({ min: -4000, max: 4000 }).map((n) => n / 1000);
const string = fc.oneof(
  word,
  anyText,
  fc.constantFrom("nbsp\u00a0", "\u2028", "\u0085x", "end\n", "a\n\n\nb", "\ttab"),
);
const spots = (most: number) => fc.array(fc.tuple(number, number, number), { minLength: 1, maxLength: most });

/** Values to set: [path below the roll or below a frame, value]. */
const looks: fc.Arbitrary<Step> = fc.oneof(
  fc
    .tuple(fc.constantFrom("exposure", "contrast", "toe", "shoulder", "black", "saturation"), number)
    .map(([key, value]) => step(["positive", key], value)),
  fc
    .tuple(fc.constantFrom("cyan", "magenta", "yellow"), number)
    .map(([key, value]) => step(["positive", "filtration", key], value)),
  fc.tuple(number, number, number).map((value) => step(["negative", "base", "density"], value)),
  fc.oneof(number, fc.tuple(number, number, number)).map((value) => step(["negative", "gamma"], value)),
  fc
    .constantFrom(
      [
        [0, 0],
        [100, 100],
      ],
      [
        [0, 1],
        [10, 12],
        [30, 33],
        [60, 62],
        [100, 100],
      ],
    )
    .map((value) => step(["positive", "curve"], value)),
  spots(6).map((value) => step(["light", "spots"], value)),
  fc.constant(step(["light", "flare"], [0.01, 0.02, 0.03])),
);
const ofFrame: fc.Arbitrary<Step> = fc.oneof(
  looks,
  fc.tuple(fc.constantFrom("title", "note", "scan"), string).map(([key, value]) => step([key], value)),
  fc.boolean().map((value) => step(["mirror"], value)),
  fc
    .tuple(fc.constantFrom("left", "top", "width", "height", "tilt"), number)
    .map(([key, value]) => step(["area", key], value)),
  spots(6).map((value) => step(["spots"], value)),
  fc.constant(step(["area"], { left: 0.1, top: 0.2, width: 0.5, height: 0.5 })),
);
const ofRoll: fc.Arbitrary<Step> = fc.oneof(
  looks,
  fc.tuple(fc.constantFrom("title", "note", "stock"), string).map(([key, value]) => step([key], value)),
  fc.tuple(fc.constantFrom("camera", "lens", "place"), string).map(([key, value]) => step(["exposed", key], value)),
  fc.tuple(frameId, fc.record({ scan: word })).map(([id, value]) => step(["frames", id], value)),
  fc.constant(step(["output"], [{ name: "web", type: "jpeg" }])),
);

/** Paths of everything that a value holds. */
function pathsOf(value: unknown, path: Path = []): Path[] {
  const inner = Array.isArray(value)
    ? value.flatMap((v, i) => pathsOf(v, [...path, i]))
    : typeof value === "object" && value !== null
      ? Object.entries(value).flatMap(([k, v]) => pathsOf(v, [...path, k]))
      : [];
  return path.length > 0 ? [path, ...inner] : inner;
}

/** One edit of a recipe: a value set, changed or removed. */
const single = written.chain((recipe): fc.Arbitrary<[Written, Step]> => {
  const paths = pathsOf(recipe.value).filter((path) => path.join() !== "version");
  const ids = Object.keys((recipe.value.frames as Data | undefined) ?? { "07": {} });
  const scalars = paths.filter((path) => typeof at(recipe.value, path) !== "object");
  return fc.tuple(
    fc.constant(recipe),
    fc.oneof(
      ofRoll,
      fc.tuple(fc.constantFrom(...ids), ofFrame).map(([id, inner]) => step(["frames", id, ...inner.path], inner.value)),
      ...(paths.length > 0 ? [fc.constantFrom(...paths).map((path) => step(path, undefined))] : []),
      ...(scalars.length > 0
        ? [fc.tuple(fc.constantFrom(...scalars), fc.oneof(number, string)).map(([path, value]) => step(path, value))]
        : []),
    ),
  );
});

const at = (value: unknown, path: Path): unknown =>
  path.reduce<unknown>((v, part) => (v as Data | undefined)?.[part], value);

/** The edit on plain data, written as simply as can be: what the edited text has to say. */
function edited(value: unknown, { path, value: wanted }: Step): unknown {
  const copy = JSON.parse(JSON.stringify(value)) as Data;
  const put = (holder: Data, depth: number): void => {
    const part = path[depth]!;
    if (depth === path.length - 1) {
      if (wanted !== undefined) holder[part] = wanted;
      else if (Array.isArray(holder)) holder.splice(Number(part), 1);
      else delete holder[part];
    } else {
      if (wanted === undefined && holder[part] === undefined) return;
      if (typeof holder[part] !== "object") holder[part] = {};
      put(holder[part] as Data, depth + 1);
    }
    const inner = holder[part];
    const isFrame = depth === 1 && path[0] === "frames";
    if (
      wanted === undefined &&
      depth < path.length - 1 &&
      typeof inner === "object" &&
      Object.keys(inner!).length === 0 &&
      !isFrame
    ) {
      if (Array.isArray(holder)) holder.splice(Number(part), 1);
      else delete holder[part];
    }
  };
  put(copy, 0);
  return copy;
}

/** Numbers of the old text's lines (from 0) that a list of changes takes away or alters. */
function touchedLines(text: string, changes: readonly TextChange[]): number[] {
  const touched = new Set<number>();
  const lineOf = (offset: number) => text.slice(0, offset).split("\n").length - 1;
  for (const { start, end, text: wanted } of changes) {
    const startsLine = start === 0 || text[start - 1] === "\n";
    const isInsertion = start === end && startsLine && wanted.endsWith("\n");
    if (isInsertion) continue;
    // Whole lines put in the place of whole lines, or text within lines.
    const last = end > start && text[end - 1] === "\n" && startsLine ? end - 1 : end;
    for (let line = lineOf(start); line <= lineOf(last); line++) touched.add(line);
  }
  return [...touched].toSorted((a, b) => a - b);
}

/** Lines that an edit may touch: those of its own key and value with the comments above, or of the line or brackets it is put into. */
function ownLines(text: string, path: Path): Set<number> {
  const document = parse(text);
  const lines = text.split(/\r?\n/);
  const own = new Set<number>();
  const lineOf = (offset: number) => text.slice(0, offset).split("\n").length - 1;
  const take = (length: number) => {
    const range = document.rangeOf(path.slice(0, length), "both");
    if (!range) return false;
    const first = lineOf(range[0]);
    let last = lineOf(range[1]);
    const indent = lines[first]!.search(/\S/);
    // Comments and blank lines at the end of a block, which are part of it.
    while (
      last + 1 < lines.length &&
      (/^\s*$/.test(lines[last + 1]!) || (/^\s*#/.test(lines[last + 1]!) && lines[last + 1]!.search(/\S/) > indent))
    )
      last++;
    // Behind a dash, the next key or item moves up when the first one goes.
    const start = text.lastIndexOf("\n", range[0] - 1) + 1;
    if (/-\s/.test(text.slice(start, range[0]))) last++;
    for (let line = first; line <= last; line++) own.add(line);
    for (let line = first - 1; line >= 0 && /^\s*(?:#.*)?$/.test(lines[line]!); line--) own.add(line);
    return true;
  };
  for (let length = path.length; length > 0; length--) if (take(length)) break;
  return own;
}

/** Lines of the mapping that holds a key, where the edit takes it past column 100 or back: it is laid out anew as a whole. */
function relaidLines(text: string, after: string, path: Path): readonly number[] {
  const linesIn = (all: string): readonly number[] => {
    const range = parse(all).rangeOf(path.slice(0, -1), "both");
    if (!range) return [];
    const [first, last] = range.map((offset) => all.slice(0, offset).split("\n").length - 1);
    return Array.from({ length: last! - first! + 1 }, (_, i) => first! + i);
  };
  const [before, now] = [linesIn(text), linesIn(after)];
  return Math.min(before.length, now.length) === 1 && before.length !== now.length ? before : [];
}

describe("one edit", () => {
  test("the edited text says what the edit says, and nothing else changes", () => {
    fc.assert(
      fc.property(single, ([{ value, text }, step]) => {
        const changes = editRecipe(text, [step]);
        const after = applyChanges(text, changes);
        expect(parse(after).value).toEqual(edited(value, step));
      }),
      runs(120),
    );
  });

  test("touches only the lines of its own key, and keeps the comments of all others", () => {
    fc.assert(
      fc.property(single, ([{ value, text }, step]) => {
        const changes = editRecipe(text, [step]);
        const after = applyChanges(text, changes);
        // A removal that empties the mappings around it takes those, so its own key is the outermost that goes.
        let path = step.path;
        while (step.value === undefined && path.length > 1 && at(edited(value, step), path.slice(0, -1)) === undefined)
          path = path.slice(0, -1);
        const own = ownLines(text, path);
        for (const line of relaidLines(text, after, path)) own.add(line);
        expect(touchedLines(text, changes).filter((line) => !own.has(line))).toEqual([]);
        const lost = comments(text).filter((comment) => !comments(after).includes(comment));
        const ownComments = comments([...own].map((line) => text.split("\n")[line]).join("\n"));
        expect(lost.filter((comment) => !ownComments.includes(comment))).toEqual([]);
      }),
      runs(120),
    );
  });

  test("setting one number or word changes one line, and keeps all comments", () => {
    fc.assert(
      fc.property(single, ([{ value, text }, step]) => {
        const old = at(value, step.path);
        fc.pre(
          typeof old !== "object" &&
            old !== undefined &&
            step.value !== undefined &&
            !JSON.stringify(old).includes("\\n") &&
            !JSON.stringify(step.value).includes("\\n") &&
            typeof step.value !== "object",
        );
        const changes = editRecipe(text, [step]);
        expect(changes.length).toBeLessThanOrEqual(1);
        expect(touchedLines(text, changes).length).toBe(changes.length);
        expect(comments(applyChanges(text, changes))).toEqual(comments(text));
      }),
      runs(80),
    );
  });

  test("a text in canonical format stays in it", () => {
    fc.assert(
      fc.property(single, ([{ text }, step]) => {
        const canonical = formatRecipe(text);
        const after = applyChanges(canonical, editRecipe(canonical, [step]));
        expect(after).toBe(formatRecipe(after));
      }),
      runs(120),
    );
  });
});

test("many edits at once say what they say one after the other", () => {
  const many = fc.tuple(
    written,
    fc.array(
      fc.oneof(
        ofRoll,
        fc.tuple(frameId, ofFrame).map(([id, inner]) => step(["frames", id, ...inner.path], inner.value)),
      ),
      { maxLength: 8 },
    ),
    fc.array(fc.nat(), { maxLength: 4 }),
  );
  fc.assert(
    fc.property(many, ([{ value, text }, sets, removals]) => {
      const paths = pathsOf(value).filter(
        (path) => path.length <= 3 && path.join() !== "version" && path.every((part) => typeof part === "string"),
      );
      const steps = [
        ...removals.flatMap((n) => (paths.length > 0 ? [{ path: paths[n % paths.length]!, value: undefined }] : [])),
        ...sets,
      ];
      const after = applyChanges(text, editRecipe(text, steps));
      expect(parse(after).value).toEqual(steps.reduce(edited, value));
      const canonical = formatRecipe(text);
      const kept = applyChanges(canonical, editRecipe(canonical, steps));
      expect(kept).toBe(formatRecipe(kept));
    }),
    runs(80),
  );
});
