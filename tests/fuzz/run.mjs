// Coverage-guided fuzzing of the doors: inputs are changed at random, and one that reaches code that none reached before
// is kept and changed further. What is reached is told by V8 itself (block coverage of its inspector), so that nothing
// need be installed.
// Usage: node tests/fuzz/run.mjs DOOR [SECONDS] [SEED]     DOOR: yamlDoor, metadataDoor or messageDoor
// A find is written to tests/fuzz/finds/ and then played by every test run.
import { buildSync } from "esbuild";
import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { Session } from "node:inspector/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const cache = join(root, ".cache/fuzz");
const [door = "", seconds = "60", seed = "1"] = process.argv.slice(2);
if (!["yamlDoor", "metadataDoor", "messageDoor"].includes(door))
  throw new Error("Usage: node tests/fuzz/run.mjs DOOR [SECONDS] [SEED]   DOOR: yamlDoor, metadataDoor or messageDoor");
/** An input that takes longer is a find. */
const SLOW = 5000;
const LONGEST = 6000;

mkdirSync(cache, { recursive: true });
const target = join(cache, `${door}.cjs`);
buildSync({
  stdin: {
    contents: `export { ${door} as door } from "./doors.ts"; export { smallFiles } from "./small-files.ts";`,
    resolveDir: here,
  },
  bundle: true,
  platform: "node",
  format: "cjs",
  external: ["sharp"],
  define: { "import.meta.url": '"file:///none/doors.cjs"' },
  logLevel: "error",
  outfile: target,
});
const session = new Session();
session.connect();
await session.post("Profiler.enable");
await session.post("Profiler.startPreciseCoverage", { callCount: true, detailed: true });
const { door: play, smallFiles } = createRequire(import.meta.url)(target);

let state = Number(seed) >>> 0 || 1;
/** xorshift32: 0 … n−1. */
function random(n) {
  state ^= state << 13;
  state ^= state >>> 17;
  state ^= state << 5;
  state >>>= 0;
  return state % n;
}

function seeds() {
  if (door === "metadataDoor")
    return Object.values(smallFiles()).map((bytes) => Buffer.from(bytes).subarray(0, LONGEST));
  if (door === "messageDoor")
    return ['{"kind":"request","id":1,"name":"select","value":{"frame":"01"}}', '[{"kind":"cancel","id":1}]'].map(
      (text) => Buffer.from(text),
    );
  return ["tests/corpus/valid", "tests/corpus/invalid"].flatMap((folder) =>
    readdirSync(join(root, folder))
      .toSorted()
      .map((name) => readFileSync(join(root, folder, name)).subarray(0, LONGEST)),
  );
}

/** Pieces that mean something to a reader. */
const WORDS = {
  yamlDoor: [
    "\n",
    ": ",
    "- ",
    "  ",
    "&a ",
    "*a",
    "!t ",
    "[",
    "]",
    "{",
    "}",
    '"',
    "'",
    "|",
    ">",
    "#",
    "? ",
    "---\n",
    ",",
    "null",
    "1e9",
    ".nan",
    "-",
    "\t",
    "é",
    "\ufeff",
    "frames:",
    "positive:",
    "exposure: 1",
    "<<: ",
  ],
  metadataDoor: [
    "II*\0",
    "MM\0*",
    "\xff\xd8\xff",
    "\xff\xe1",
    "Exif\0\0",
    "\0\0\0\0",
    "\xff\xff\xff\xff",
    "\x7f\xff\xff\xff",
    "\x00\x01",
    "\x01\x00",
    "\x87\x69",
    "\x69\x87",
    "acsp",
    "curv",
    "para",
    "ROLLPRXY",
    "FUJIFILM",
    "ftypcrx ",
  ],
  messageDoor: [
    '"kind":',
    '"request"',
    '"cancel"',
    '"id":',
    "1",
    "-1",
    "1e999",
    "null",
    "{",
    "}",
    "[",
    "]",
    ",",
    '"__proto__"',
    '"name":',
    '"select"',
    '"edit"',
  ],
}[door].map((word) => Buffer.from(word, door === "metadataDoor" ? "latin1" : "utf8"));

function change(bytes, other) {
  let out = Buffer.from(bytes);
  for (let k = 1 + random(4); k > 0; k--) {
    const at = random(out.length + 1);
    const how = random(8);
    if (how === 0 && out.length) out[at % out.length] = random(256);
    else if (how === 1 && out.length) out[at % out.length] ^= 1 << random(8);
    else if (how === 2) out = Buffer.concat([out.subarray(0, at), out.subarray(at + 1 + random(20))]);
    else if (how <= 4)
      out = Buffer.concat([out.subarray(0, at), WORDS[random(WORDS.length)], out.subarray(at + (random(2) ? 0 : 4))]);
    else if (how === 5 && out.length >= at + 4)
      out.writeUInt32LE(random(3) ? random(out.length * 2) : 0xffffffff - random(9), at);
    else if (how === 6) out = Buffer.concat([out.subarray(0, at), other.subarray(random(other.length + 1))]);
    else
      out = Buffer.concat([
        out.subarray(0, at),
        out.subarray(at % (out.length + 1), at + random(60)),
        out.subarray(at),
      ]);
  }
  return out.subarray(0, LONGEST);
}

const reached = new Set();
/** Combinations of blocks of one function that ran together for the first time since the last time this was asked. */
async function newlyReached() {
  const { result } = await session.post("Profiler.takePreciseCoverage");
  let fresh = 0;
  for (const script of result) {
    if (!script.url.endsWith(`${door}.cjs`)) continue;
    for (const { ranges } of script.functions) {
      const key = ranges.map(({ startOffset, endOffset, count }) => `${startOffset}-${endOffset}-${count > 0}`).join();
      if (reached.has(key)) continue;
      reached.add(key);
      fresh++;
    }
  }
  return fresh;
}

let executions = 0;
let finds = 0;
const corpus = seeds();
for (const input of corpus) await tryOut(input);
await newlyReached();
const atFirst = reached.size;
const end = performance.now() + Number(seconds) * 1000;
while (performance.now() < end && finds < 5) {
  const parent = corpus[random(2) ? random(corpus.length) : corpus.length - 1 - random(Math.min(20, corpus.length))];
  // Coverage is asked for once for a handful, since asking takes as long as trying out.
  const handful = Array.from({ length: 8 }, () => change(parent, corpus[random(corpus.length)]));
  for (const input of handful) {
    executions++;
    await tryOut(input);
  }
  if ((await newlyReached()) > 0) corpus.push(...handful.slice(0, 3), handful[7]);
}
console.log(
  `${door}: ${executions} executions in ${seconds} s, combinations of blocks ${atFirst} → ${reached.size}, corpus ${corpus.length}, finds ${finds}`,
);
process.exitCode = finds ? 1 : 0;

async function tryOut(input) {
  const begun = performance.now();
  let error;
  try {
    await play(new Uint8Array(input));
  } catch (thrown) {
    error = thrown;
  }
  const took = performance.now() - begun;
  if (!error && took < SLOW) return;
  finds++;
  const name = `${door}-${createHash("sha256").update(input).digest("hex").slice(0, 8)}`;
  writeFileSync(join(here, "finds", name), input);
  console.log(`${name}: ${error ? (error.stack ?? error) : `took ${Math.round(took)} ms`}`);
}
