/** Completions of values. */
import { describeKey } from "../../schema/describe.ts";
import { folderOf, joinPath } from "../../paths.ts";
import type { Completion, CompletionPlace } from "./completion.ts";
import { documentation, isBlock } from "./complete-keys.ts";
import type { WritingContext } from "./context.ts";
import { behind, placed } from "../levels.ts";
import { nameOf, relativePath } from "../missing.ts";
import { mayBeProfileName, mayBeScanName } from "../../scan-names.ts";
import { scansFolder } from "../scans.ts";
import { defaultText, shortValue, valueText } from "../values.ts";

/** What may stand behind the key, or as the item, at the caret. */
export async function valueCompletions(context: WritingContext, place: CompletionPlace): Promise<Completion[]> {
  const { kind } = place.reading.document;
  const about = describeKey(kind, context.path);
  if (!about) return [];
  if (about.isPath || isScan(context)) return fileCompletions(context, place);
  const { range, t } = place;
  const other = behind(place.reading, placed(context.path));
  const inherited = other && typeof other.value !== "object" ? other : undefined;
  const words = about.enum ?? ([about.type].flat().includes("boolean") ? ["true", "false"] : []);
  const mark = (text: string): string | undefined => {
    if (inherited && inherited.origin.level !== "default" && text === valueText(inherited.value)) return t("inherited");
    return text === defaultText(about) ? t("default") : undefined;
  };
  const found = words.map((word, i): Completion => {
    const text = word === "true" || word === "false" ? word : valueText(word);
    return {
      label: text,
      kind: "value",
      detail: mark(text),
      documentation: documentation(about, t),
      snippet: spaced(context, text),
      range,
      sort: String(i).padStart(3, "0"),
    };
  });
  // A proposal in the middle of a title or a remark would only be in the way.
  const isRunning = [about.type].flat().includes("string") && context.prefix !== "";
  if (words.length > 0 || isRunning) return found;
  for (const [value, detail] of [
    [inherited && inherited.origin.level !== "default" ? valueText(inherited.value) : undefined, t("inherited")],
    [
      about.default === undefined || typeof about.default === "object" ? undefined : valueText(about.default),
      t("default"),
    ],
    ...(about.examples ?? [])
      .filter((example) => !isBlock(example))
      .slice(0, typeof about.examples?.[0] === "number" ? MAX_EXAMPLES : 1)
      .map((example) => [String(example), t("example")] as const),
  ] as const) {
    if (value === undefined || found.some(({ label }) => label === value)) continue;
    const text = value;
    found.push({
      label: text.startsWith('"') ? text : shortValue(text).replace(/^"(.*)"$/, "$1"),
      kind: "value",
      detail,
      documentation: documentation(about, t),
      snippet: spaced(context, text.replaceAll(/[$}\\]/g, "\\$&")),
      range,
      sort: String(found.length),
    });
  }
  return found;
}

/** Values that may be a number or a text have an example of each form. */
const MAX_EXAMPLES = 4;

/** A colon wants a blank behind it. */
const spaced = ({ needsBlank }: WritingContext, text: string): string => (needsBlank ? ` ${text}` : text);

/** Scans of a frame that is joined or merged are items of a list. */
const isScan = ({ path }: WritingContext): boolean =>
  path.length === 4 && path[0] === "frames" && (path[2] === "scans" || path[2] === "exposures");

async function fileCompletions(context: WritingContext, place: CompletionPlace): Promise<Completion[]> {
  const { document } = place.reading;
  const name = String(context.path.at(-1));
  if (name === "stock") return stockCompletions(context, place);
  const isFolder = name === "scans" && context.path.length === 1;
  const isProfile = name === "profile";
  const start = isFolder || isProfile ? folderOf(document.file) : scansFolder(document);
  const typed = context.prefix.replace(/^["']/, "");
  const way = typed.slice(0, typed.lastIndexOf("/") + 1);
  const folder = joinPath(start, way);
  const roots = place.workspace.roots(document.file);
  if (
    folder === undefined ||
    !roots.some((root) => folder === root || folder.startsWith(root.endsWith("/") ? root : `${root}/`))
  )
    return [];
  const names = (await place.workspace.list(folder)) ?? [];
  const used = usedScans(place);
  const mayBe = isProfile ? mayBeProfileName : mayBeScanName;
  return names
    .filter((one) => (one.endsWith("/") ? !one.startsWith(".") : !isFolder && mayBe(one)))
    .toSorted()
    .map((one) => {
      const frame = used.get(way + one);
      const isDir = one.endsWith("/");
      const text = way + (isDir ? one.slice(0, -1) : one);
      return {
        label: one,
        kind: isDir ? ("folder" as const) : ("file" as const),
        detail: frame === undefined ? undefined : place.t("in frame {0}", frame),
        snippet: spaced(context, pathSnippet(text)),
        range: place.range,
        sort: `${isDir ? 2 : frame === undefined ? 0 : 1}${one}`,
      };
    });
}

async function stockCompletions(
  context: WritingContext,
  { reading, range, workspace }: CompletionPlace,
): Promise<Completion[]> {
  const stocks = await workspace.find("stock");
  return stocks
    .map((file) => ({ file, path: relativePath(reading.document.file, file) }))
    .toSorted((a, b) => (a.path < b.path ? -1 : 1))
    .map(({ file, path }, i) => ({
      label: path,
      kind: "file" as const,
      detail: nameOf(file) === path ? undefined : nameOf(file),
      snippet: spaced(context, pathSnippet(path)),
      range,
      sort: String(i).padStart(4, "0"),
    }));
}

/** Names with blanks need no quotes in YAML; those with a # or a colon and a blank do. */
const pathSnippet = (path: string): string =>
  (/^[\w.][\w./ ()+äöüßéèåø-]*$/i.test(path) ? path : JSON.stringify(path)).replaceAll(/[$}\\]/g, "\\$&");

/** Scans by name, and the frame that uses each. */
function usedScans({ reading }: CompletionPlace): Map<string, string> {
  const used = new Map<string, string>();
  for (const frame of reading.resolved.frames) for (const scan of frame.scans) used.set(scan.name, frame.id);
  return used;
}
