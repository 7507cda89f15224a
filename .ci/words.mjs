// Fails on retired words (docs/glossary.md has those in use): identifiers in code, exact phrases in code and documents.
// Ordinary words are left alone. Fails, too, when it found nothing to check. Usage: node .ci/words.mjs [--root FOLDER]
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, sep } from "node:path";
import { fileURLToPath } from "node:url";

const at = process.argv.indexOf("--root");
const root = at > 0 ? process.argv[at + 1] : dirname(dirname(fileURLToPath(import.meta.url)));

/** Retired identifiers, and what to write. */
const IDENTIFIERS = [
  [/\b\w*Wish\b|\bwishOf\b/, "…Options"],
  [/\b(?:RollOrder|BareOrder|PictureOrder|bareOrders|orderPicture)\b/, "…Request"],
  [/\bCrew\b/, "WorkerQueue"],
  [/\b(?:openDesk|enterRoom|leaveRoom|newRoom|makeRoom|TablePlaces)\b/, "WasmArena, SharpenBuffers, TableOffsets"],
  [/\binWords\b|\b(?:[a-z]\w*[a-z]Words|levelWord|kindWord|severityWord)\((?<!openWords\()/, "format…, …Text"],
  [/\bsaid\(|\b(?:said|told)\s*[=:}]/, "msg(, message, the thing's own name"],
  [/\b(?:saysOf|saidOf|tellHost|tellEdge|mustTell|flareTold|toldBySpecks)\b/, "weightsOf, print…, flareFromSpecks"],
  [/\b(?:Asker|Answerer)\b/, "RpcClient, RpcServer"],
  [/\b(?:SoundRoll|SoundRecipe|loadSound|soundValue|Unsound|unsound|faultless)\b/, "valid, invalid"],
  [/\bNoted[A-Z]\w*|\b(?:notedValue|hasNotes|NoteReader)\b/, "comments"],
  [/\b(?:loneThing|lookOver|lightGiven|litter)\b/, "isolatedObject, firstPass, exposureError, clutter"],
  [/\b(?:LookedOver|LookedAt|firstLook|RollSoFar|rollSoFar|rolesSoFar)\b/, "FirstPass, KnownRoll, currentRoles"],
  [/\b(?:dirtOnSensor|lightSpill|dirtOf|scatterDirt|dirtShade|dirtySensor)\b/, "sensorDust, lightLeak"],
  [/\b(?:PassedOver|PassedStore|NOTHING_PASSED|passedStore)\b/, "Dismissed"],
  [/\b(?:LEAST|MOST)(?:_\w+)?\b|\b(?:FEWEST|GREATEST)(?:_\w+)?\b/, "MIN_…, MAX_…"],
  [/\b(?:DarkThing|darkThings|natureOf|Nature|withoutDoubles|voicesOf)\b/, "blob, measurements, weights, centreline"],
  [/\b(?:unrest|UNREST)\s*[=:]|\.unrest\b/, "localNoise, noiseMultiple"],
  [/\b(?:Placing|placings|roomsOf|Sight|sightOf)\b/, "FrameTransform, paneBoxesOf, Viewport"],
  [
    /\b(?:treeAt|soil|goingComments|keepAsStock|relayEntry|isCured|cures?|CURE)\b/,
    "nodeAt, removedComments, stockFromRoll, remedy",
  ],
  [/\b(?:complain|complainAll|complaints?|refusal|remarks?|REMARKS)\b\s*[=:(]/, "printError, problem, comment"],
  [/\b(?:faultPaths|placeFaults|nameFault|syntaxFaults)\b/, "invalidPaths, placeFailures, nameError"],
  [/\b(?:shelves|Shelf|keptClosed|RollOverview|FrameOverview)\b/, "CacheEntry, DocumentCache, RollSummary"],
  [/\b(?:bury|barren|obituary|hire|beginnings|lookThrough)\b/, "onExit, failedStarts, stderrTail, spawn, templates"],
  [/\b(?:ALIKE|UNLIKE|leastAlike|VERY_ALIKE|likenessOf|likeness)\b/, "similarity"],
  [/\b(?:rivalry|rivals?Of|goer|twoHands|layDust|layHair|layOutline)\b/, "conflict, removable, twoEditors, place…"],
  [/\b(?:paintLost|lostOn|lostOf)\b/, "paintClipping, clippedOn"],
  [/\bclass: "[^"]*\bremark\b/, "the class note"],
];

/** Retired phrases, in any text, and what to write. */
const PHRASES = [
  [/\blight-spill\b/i, "light-leak"],
  [/\bdirt-on-sensor\b/i, "sensor-dust"],
  [/\blost tones\b/i, "clipping"],
  [/\bkept state\b/i, "reference state"],
  [/\bbeside the stock's\b/i, "relative to the stock's"],
  [/\bframed anew\b/i, "recropped"],
  [/\bread anew\b/i, "reread"],
  [/\bmade anew\b/i, "rebuilt"],
  [/\bloaded anew\b/i, "reloaded"],
  [/\bpass(?:ed|es) over\b/i, "skip, dismiss"],
  [/\bpropose again\b/i, "restore"],
  [/\bbeg[aiu]n a roll\b/i, "create a roll"],
  [/"whose value"/i, "source"],
  [/\bmend (?:it|them|the)\b/i, "fix"],
  [/\bspots? of dirt\b/i, "sensor dust"],
  [/\bdirt on (?:the )?(?:sensor|lens|light|blank)\b/i, "sensor dust"],
  [/^\s*\.remark\b/, "the class note"],
  [/\bmended\b/i, "fixed"],
  [/\btaken back\b|\btakes? back\b/i, "revert"],
  [/\bdark things?\b/i, "dark blob"],
  [/\b(?:is|are|was|were) not to be had\b/i, "not available"],
  [/\bwhat was msg of\b/i, "reported"],
];

/** Files as paths from the root; the texts of licences, published tables and random input are other people's. */
const OTHERS =
  /^(?:docs\/licences|docs\/third-party-notices|tests\/(?:reference|fuzz|corpus)\/|tests\/unit\/words\.test)/;
const files = ["extension", "webview", "schemas", "tests", "docs", "README.md", "DEVELOPERS.md", "package.nls.json"]
  .filter((top) => existsSync(join(root, top)))
  .flatMap((top) =>
    statSync(join(root, top)).isFile()
      ? [top]
      : readdirSync(join(root, top), { recursive: true, encoding: "utf8" }).map((name) =>
          [top, ...name.split(sep)].join("/"),
        ),
  )
  .filter(
    (file) => /\.(?:ts|mjs|cjs|json|md|css|yaml)$/.test(file) && !OTHERS.test(file) && file !== "docs/glossary.md",
  );

const hits = [];
for (const file of files) {
  const isCode = /\.(?:ts|mjs|cjs)$/.test(file);
  const rules = isCode ? [...IDENTIFIERS, ...PHRASES] : PHRASES;
  for (const [i, line] of readFileSync(join(root, file), "utf8").split("\n").entries())
    for (const [word, instead] of rules) {
      const found = word.exec(line);
      if (found) hits.push(`${file}:${i + 1}: "${found[0]}" is retired: write ${instead} (docs/glossary.md).`);
    }
}

if (files.length === 0) hits.push("words: found no files to check");
for (const hit of hits) console.error(hit);
if (hits.length === 0) console.log(`words: ${files.length} files hold no retired word`);
process.exitCode = hits.length ? 1 : 0;
