/** `rollbook watch` as a user runs it: verdicts as lines of JSON, a retake, a killed run, pairs and half-written files. */
import { spawn } from "node:child_process";
import { appendFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { scanBytes, type StandScan, TWELVE } from "../work/copy-stand/stand-scans.ts";

const program = fileURLToPath(new URL("../../../dist/rollbook.mjs", import.meta.url));
const stock = fileURLToPath(new URL("../../../recipes-examples/stocks/northlight-400.stock.yaml", import.meta.url));

interface Event {
  readonly event: string;
  readonly scan?: string;
  readonly verdict?: string;
  readonly kind?: string;
  readonly frame?: string;
  readonly reasons?: readonly { readonly code: string }[];
  readonly good?: number;
  readonly again?: number;
}

let folder = "";
const scans = (name: string): string => join(folder, "scans", name);
const recipe = (): string => readFileSync(join(folder, "quay.roll.yaml"), "utf8");

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "watch-"));
  mkdirSync(join(folder, "scans"));
  writeFileSync(join(folder, "northlight.stock.yaml"), readFileSync(stock));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Seconds that something may take while other programs keep the machine busy. */
const PATIENCE = 600;

/** Starts the command; what it prints is collected as it comes. */
const watching = (...more: string[]) => watchingIn(folder, ...more);

function watchingIn(cwd: string, ...more: string[]) {
  const args = ["watch", "scans", "-o", "quay.roll.yaml", "--stock", "northlight.stock.yaml", "--format", "135"];
  const child = spawn(process.execPath, [program, ...args, "--first", "12", "--root", ".", "--json", ...more], {
    cwd,
    env: { ...process.env, XDG_CACHE_HOME: join(cwd, "cache") },
    stdio: ["ignore", "pipe", "pipe"],
  });
  let out = "";
  child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text));
  const ended = new Promise<number | null>((done) => child.on("close", (code) => done(code)));
  const events = (): Event[] =>
    out
      .split("\n")
      .slice(0, -1)
      .map((line) => JSON.parse(line) as Event);
  const until = async (what: string, is: (all: Event[]) => boolean): Promise<void> => {
    const end = performance.now() + 1000 * PATIENCE;
    while (performance.now() < end) {
      if (is(events())) return;
      // Short, so that a run can be killed at a moment of its own.
      await new Promise((done) => setTimeout(done, 5));
    }
    throw new Error(`${what} did not come in ${PATIENCE} s. ${out}`);
  };
  const verdictOn = (scan: string): Promise<void> =>
    until(`the verdict on ${scan}`, (all) => all.some((one) => one.event === "scan" && one.scan === scan));
  return { events, until, verdictOn, stop: (signal: NodeJS.Signals) => (child.kill(signal), ended) };
}

const nameOf = (index: number): string => `A${String(index).padStart(4, "0")}.dng`;

describe("a session at the terminal", () => {
  it("judges twelve scans, five of them with a fault each, and survives being killed in between", async () => {
    const first = watching();
    const drop = async (run: ReturnType<typeof watching>, index: number, scan: StandScan): Promise<void> => {
      writeFileSync(scans(nameOf(index)), scanBytes(scan, index));
      await run.verdictOn(nameOf(index));
    };
    // The leader before the blank: its base is read again by the light.
    await drop(first, 2, { subject: "leader" });
    await drop(first, 1, { subject: "blank" });
    for (let k = 0; k < 5; k++) await drop(first, k + 3, TWELVE[k]);
    const before = first.events();
    writeFileSync(scans(nameOf(8)), scanBytes(TWELVE[5], 8));
    // In the middle of a scan, without a chance to tidy up.
    await new Promise((done) => setTimeout(done, 600));
    await first.stop("SIGKILL");

    const second = watching();
    await second.verdictOn(nameOf(8));
    for (let k = 6; k < TWELVE.length; k++) await drop(second, k + 3, TWELVE[k]);
    const code = await second.stop("SIGINT");
    const after = second.events();
    const known = after.filter(({ event }) => event === "known").map(({ scan }) => scan);
    expect(new Set(known)).toEqual(new Set([1, 2, 3, 4, 5, 6, 7].map(nameOf)));
    const expectedText = [...before, ...after].filter(({ event, kind }) => event === "scan" && kind === "picture");
    expect(expectedText.map(({ scan, verdict }) => `${scan} ${verdict}`)).toEqual(
      TWELVE.map(({ verdict }, k) => `${nameOf(k + 3)} ${verdict}`),
    );
    expect(expectedText.map(({ reasons }) => reasons?.[0]?.code)).toEqual(TWELVE.map((one) => one.code));
    expect(after.at(-1)).toMatchObject({ event: "summary", good: 7, again: 4 });
    expect(code).toBe(1);
    for (const [k, { frame }] of TWELVE.entries())
      expect(recipe()).toContain(`"${frame}":\n    scan: ${nameOf(k + 3)}\n`);
    expect(recipe()).toContain("blank: A0001.dng");
    expect(recipe()).toContain("scan: A0002.dng");
  }, 2_400_000);

  it("replaces a scan that is taken again and keeps the better of two, without a second frame", async () => {
    const run = watching();
    writeFileSync(scans(nameOf(20)), scanBytes({ subject: "faces", frame: "16" }, 20));
    await run.verdictOn(nameOf(20));
    expect(recipe()).toContain('"16":\n    scan: A0020.dng\n    unused: [A0007.dng]\n');
    writeFileSync(scans(nameOf(21)), scanBytes({ subject: "faces", frame: "16", fault: "shaken" }, 21));
    await run.verdictOn(nameOf(21));
    expect(recipe()).toContain('"16":\n    scan: A0020.dng\n    unused: [A0007.dng, A0021.dng]\n');
    await run.stop("SIGINT");
    expect(recipe().match(/^ {2}"\d+":$/gm)).toHaveLength(12);
    expect(readFileSync(scans(nameOf(7))).length).toBeGreaterThan(1000);
  }, 1_200_000);

  it("says what is wrong with a file that stays half, and takes the rest when it comes", async () => {
    const run = watching();
    const bytes = scanBytes({ subject: "lace", frame: "24" }, 30);
    writeFileSync(scans(nameOf(30)), bytes.subarray(0, bytes.length >> 1));
    await run.verdictOn(nameOf(30));
    const [half] = run.events().filter(({ scan, event }) => event === "scan" && scan === nameOf(30));
    expect(half).toMatchObject({ verdict: "again", kind: "unreadable" });
    expect(recipe()).not.toContain(nameOf(30));
    appendFileSync(scans(nameOf(30)), bytes.subarray(bytes.length >> 1));
    await run.until(
      "the whole scan",
      (all) => all.filter(({ scan, event }) => event === "scan" && scan === nameOf(30)).length > 1,
    );
    expect(recipe()).toContain(`"24":\n    scan: ${nameOf(30)}\n`);
    await run.stop("SIGINT");
  }, 1_200_000);
});

describe("a run that is killed", () => {
  const FILM: readonly (StandScan & { readonly name: string })[] = [
    { name: nameOf(1), subject: "blank" },
    { name: nameOf(3), subject: "portrait", frame: "12" },
    { name: nameOf(4), subject: "quay", frame: "13" },
    { name: nameOf(5), subject: "meadow", frame: "14" },
  ];
  const KILLED = FILM[2].name;
  const bytes = FILM.map((scan, k) => scanBytes(scan, k + 1));
  const textIn = (cwd: string): string => readFileSync(join(cwd, "quay.roll.yaml"), "utf8");
  const isEvent = (event: string) => (all: Event[]) => all.some((one) => one.event === event && one.scan === KILLED);
  type Run = ReturnType<typeof watchingIn>;

  const folders: string[] = [];
  afterAll(() => folders.forEach((cwd) => rmSync(cwd, { recursive: true, force: true })));

  function newFolder(): string {
    const cwd = mkdtempSync(join(tmpdir(), "watch-killed-"));
    folders.push(cwd);
    mkdirSync(join(cwd, "scans"));
    writeFileSync(join(cwd, "northlight.stock.yaml"), readFileSync(stock));
    return cwd;
  }

  async function drop(run: Run, cwd: string, scan: number): Promise<void> {
    writeFileSync(join(cwd, "scans", FILM[scan].name), bytes[scan]);
    await run.verdictOn(FILM[scan].name);
  }

  /** The recipe of a session without a break. */
  let whole = "";
  beforeAll(async () => {
    const cwd = newFolder();
    const run = watchingIn(cwd);
    for (const scan of FILM.keys()) await drop(run, cwd, scan);
    await run.stop("SIGINT");
    whole = textIn(cwd);
  }, 1_200_000);

  it("would have had a frame for each picture", () => {
    for (const { name, subject } of FILM) expect(whole).toContain(`${subject === "blank" ? "blank" : "scan"}: ${name}`);
  });

  const MOMENTS: readonly (readonly [moment: string, when: (run: Run, cwd: string) => Promise<void>])[] = [
    ["while it decodes a scan", (run) => run.until("the scan", isEvent("arrived"))],
    ["while it measures a scan", (run) => run.until("the positive", isEvent("positive"))],
    ["when it has changed the recipe", (run, cwd) => run.until("the frame", () => textIn(cwd).includes(KILLED))],
    ["between two scans", (run) => run.verdictOn(KILLED)],
  ];

  it.each(MOMENTS)(
    "%s goes on with the same recipe as one that was not",
    async (_, when) => {
      const cwd = newFolder();
      const first = watchingIn(cwd);
      await drop(first, cwd, 0);
      await drop(first, cwd, 1);
      writeFileSync(join(cwd, "scans", KILLED), bytes[2]);
      await when(first, cwd);
      await first.stop("SIGKILL");
      const second = watchingIn(cwd);
      await second.until("the killed scan", (all) =>
        all.some(({ event, scan }) => scan === KILLED && (event === "scan" || event === "known")),
      );
      await drop(second, cwd, 3);
      await second.stop("SIGINT");
      expect(textIn(cwd)).toBe(whole);
    },
    1_200_000,
  );
});
