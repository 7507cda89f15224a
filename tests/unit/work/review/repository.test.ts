import { createHash } from "node:crypto";
import { readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Review, ReviewRecipe } from "../../../../extension/review-report.ts";
import { GitError } from "../../../../extension/work/review/git/git.ts";
import { readHistory } from "../../../../extension/work/review/history.ts";
import { listRevisions } from "../../../../extension/work/review/git/list-revisions.ts";
import { makeReview, type ReviewOptions, rewordReview } from "../../../../extension/work/review/review.ts";
import { markdownOf } from "../../../../extension/work/review/markdown.ts";
import { textOf } from "../../../../extension/work/review/text.ts";
import { openWorkspace } from "../../../../extension/work/files/workspace.ts";
import { countingPool, names, Repository, rollText, scan, stockText } from "./repository.ts";

async function look(repository: Repository, range = "", options: Partial<ReviewOptions> = {}) {
  const pool = countingPool();
  const history = await readHistory({ folder: repository.root, range });
  const made = await makeReview(history, openWorkspace(history.root), pool, { long: 64, ...options });
  return { ...made, drawn: pool.counts.get("compare-frame") ?? 0 };
}

const of = ({ recipes }: Review, file: string): ReviewRecipe => {
  const found = recipes.find((recipe) => recipe.file === file);
  if (!found) throw new Error(`The review tells nothing of ${file}, only of ${recipes.map((r) => r.file).join(", ")}.`);
  return found;
};
const brief = ({ recipes }: Review): string[] => recipes.map(({ file, status }) => `${file} ${status}`);

describe("a repository of ten commits, with a branch that changes a stock", () => {
  const repository = new Repository();
  const commits: Record<string, string> = {};
  afterAll(() => repository.remove());
  beforeAll(() => {
    const commit = (name: string): void => void (commits[name] = repository.commit(name));
    repository.write(".gitignore", "scans/\n");
    repository.scans("harbour/scans", names(3));
    repository.scans("quay/scans", names(2));
    repository.scans("tide/scans", names(1));
    repository.write("stocks/northlight.stock.yaml", stockText(1.35));
    repository.write("harbour/harbour.roll.yaml", rollText("Harbour", 3));
    commit("first");
    repository.write("quay/quay.roll.yaml", rollText("Quay", 2));
    commit("second roll");
    repository.write("stocks/coalfish.stock.yaml", stockText(1.2, "Coalfish 125"));
    repository.write("tide/tide.roll.yaml", rollText("Tide", 1, "../stocks/coalfish.stock.yaml"));
    commit("third roll");
    repository.swap("harbour/harbour.roll.yaml", "scan: F02.dng", "scan: F02.dng\n    positive: { exposure: 0.33 }");
    commit("lighter");
    repository.swap(
      "harbour/harbour.roll.yaml",
      "light: { blank: LIGHT.dng }",
      "light: # the panel\n  blank: LIGHT.dng",
    );
    commit("layout");
    repository.git("mv", "quay/quay.roll.yaml", "quay/east-quay.roll.yaml");
    commit("rename");
    repository.git("checkout", "-q", "-b", "harder");
    repository.swap("stocks/northlight.stock.yaml", "1.35", "1.6");
    commit("stock");
    repository.git("checkout", "-q", "main");
    repository.swap("tide/tide.roll.yaml", "scan: F01.dng", "scan: F01.dng\n    note: low water");
    commit("note");
    repository.git("merge", "-q", "--no-ff", "-m", "merge", "harder");
    commits["merge"] = repository.git("rev-parse", "HEAD").trim();
    repository.swap("harbour/harbour.roll.yaml", "scan: F03.dng", "scan: F03.dng\n    turn: 90");
    commit("last");
  });

  test("has ten commits", () => expect(repository.git("rev-list", "--count", "HEAD").trim()).toBe("10"));

  test("the branch against where it left main: the stock's impact on two rolls", async () => {
    const { review, drawn } = await look(repository, `${commits["note"]}...harder`);
    expect(brief(review)).toEqual([
      "stocks/northlight.stock.yaml changed",
      "harbour/harbour.roll.yaml affected",
      "quay/east-quay.roll.yaml affected",
    ]);
    expect(of(review, "stocks/northlight.stock.yaml")).toMatchObject({
      changes: [{ text: "contrast 1.35 → 1.60", group: "tone" }],
      impact: [
        { file: "harbour/harbour.roll.yaml", title: "Harbour", frames: 3, of: 3 },
        { file: "quay/east-quay.roll.yaml", title: "Quay", frames: 2, of: 2 },
      ],
    });
    const harbour = of(review, "harbour/harbour.roll.yaml");
    expect(harbour.changes).toMatchObject([
      { text: "contrast 1.35 → 1.60 (from the stock)", followers: ["01", "02", "03"] },
    ]);
    for (const frame of harbour.frames) {
      expect(frame.difference?.mean).toBeGreaterThan(0.2);
      expect(frame.difference?.max).toBeGreaterThanOrEqual(frame.difference?.p95 ?? Infinity);
      expect(frame.before?.bytes.length).toBeGreaterThan(100);
      expect(frame.map).toMatchObject({ width: frame.after?.width, height: frame.after?.height, type: "jpeg" });
    }
    const p95 = harbour.frames.map((frame) => frame.difference?.p95 ?? 0);
    expect(p95).toEqual(p95.toSorted((a, b) => b - a));
    expect(drawn).toBe(5);
  });

  test("one commit: a frame's own value", async () => {
    const { review, drawn } = await look(repository, `${commits["lighter"]}^!`);
    expect(textOf(review).filter((line) => line.includes("exposure"))).toEqual([
      "    balance exposure +0.00 → +0.33 EV (own value; was the default)",
    ]);
    expect(drawn).toBe(1);
  });

  test("the first commit, against the nothing before it", async () => {
    const { review, drawn } = await look(repository, `${commits["first"]}^..${commits["first"]}`);
    expect(review.before).toEqual({ label: "nothing (before the first commit)" });
    expect(brief(review)).toEqual(["stocks/northlight.stock.yaml added", "harbour/harbour.roll.yaml added"]);
    expect(of(review, "harbour/harbour.roll.yaml").frames).toMatchObject([
      { id: "01", status: "added" },
      { id: "02", status: "added" },
      { id: "03", status: "added" },
    ]);
    expect(drawn).toBe(3);
  });

  test("layout alone is said to be that, and draws nothing", async () => {
    const { review, drawn } = await look(repository, `${commits["layout"]}^!`);
    expect(review.recipes).toMatchObject([{ formattingOnly: true, changes: [], frames: [] }]);
    expect(textOf(review)).toContain("  Only comments, order or layout changed; every value is as it was.");
    expect(drawn).toBe(0);
  });

  test("a renamed recipe is the same recipe", async () => {
    const { review } = await look(repository, `${commits["rename"]}^!`);
    expect(review.recipes).toMatchObject([
      { file: "quay/east-quay.roll.yaml", was: "quay/quay.roll.yaml", status: "renamed", changes: [], frames: [] },
    ]);
  });

  test("a merge brings what its branch changed", async () => {
    const { review } = await look(repository, `${commits["merge"]}^!`, { long: 0 });
    expect(brief(review)[0]).toBe("stocks/northlight.stock.yaml changed");
    expect(review.rendered).toBe(false);
  });

  test("a note changes no picture", async () => {
    const { review, drawn } = await look(repository, `${commits["note"]}^!`);
    expect(of(review, "tide/tide.roll.yaml").frames).toMatchObject([{ id: "01", looksDifferent: false }]);
    expect(drawn).toBe(0);
  });

  test("a frame that was turned is compared within its new framing", async () => {
    const { review } = await look(repository, `${commits["last"]}^!`);
    const [frame] = of(review, "harbour/harbour.roll.yaml").frames;
    expect(frame).toMatchObject({ id: "03", reframed: true, difference: { mean: 0, max: 0 } });
    expect([frame?.before?.width, frame?.before?.height]).toEqual([frame?.after?.height, frame?.after?.width]);
  });

  test("only the recipes that were asked for", async () => {
    const range = `${commits["note"]}...harder`;
    const { review } = await look(repository, range, { only: ["quay/east-quay.roll.yaml"], long: 0 });
    expect(brief(review)).toEqual(["stocks/northlight.stock.yaml changed", "quay/east-quay.roll.yaml affected"]);
  });

  test("a detached head, and work that is not committed, a recipe that git does not know included", async () => {
    repository.git("checkout", "-q", "--detach", "harder");
    try {
      repository.swap("tide/tide.roll.yaml", "Tide", "Spring tide");
      repository.write("quay/night.roll.yaml", rollText("Night", 1));
      const { review } = await look(repository);
      expect(review.after).toEqual({ label: "the working tree" });
      expect(brief(review).toSorted()).toEqual(["quay/night.roll.yaml added", "tide/tide.roll.yaml changed"]);
    } finally {
      repository.git("checkout", "-q", "--force", "main");
      rmSync(join(repository.root, "quay/night.roll.yaml"));
    }
  });

  test("a branch since it left another, with what is not committed", async () => {
    repository.git("checkout", "-q", "harder");
    try {
      repository.swap("tide/tide.roll.yaml", "Tide", "Spring tide");
      const history = await readHistory({ folder: repository.root, range: "main~2", sinceLeft: true });
      const { review } = await makeReview(history, openWorkspace(history.root), countingPool(), { long: 0 });
      expect(history.states.before.label).toContain("where HEAD");
      expect(brief(review).toSorted()).toContain("tide/tide.roll.yaml changed");
      expect(brief(review)[0]).toBe("stocks/northlight.stock.yaml changed");
    } finally {
      repository.git("checkout", "-q", "--force", "main");
    }
  });

  test("the revisions to choose from: branches, and the commits of one recipe", async () => {
    const all = await listRevisions({ folder: repository.root });
    expect(
      all
        .filter(({ kind }) => kind === "branch")
        .map(({ name }) => name)
        .toSorted(),
    ).toEqual(["harder", "main"]);
    // HEAD is main, which the merge made hold the whole of the other branch: it was left where that ends.
    const [base] = all;
    expect(base).toMatchObject({ kind: "base", of: "harder", subject: "stock" });
    expect(all.findIndex(({ kind }) => kind === "branch")).toBe(1);
    const own = await listRevisions({
      folder: repository.root,
      file: join(repository.root, "quay/east-quay.roll.yaml"),
    });
    const subjects = own.filter(({ kind }) => kind === "commit").map(({ subject }) => subject);
    // The rename is followed; beyond the file's own beginning git goes on to the file that it looks copied from.
    expect(subjects.slice(0, 2)).toEqual(["rename", "second roll"]);
    expect(subjects).not.toContain("third roll");
  });

  test("index and working tree are left alone", async () => {
    const state = (): string => {
      const index = createHash("sha256")
        .update(readFileSync(join(repository.root, ".git/index")))
        .digest("hex");
      return index + repository.git("status", "--porcelain", "--ignored") + repository.git("stash", "list");
    };
    const before = state();
    await look(repository, "main~3..main", { long: 0 });
    await look(repository, "", { long: 0 });
    expect(state()).toBe(before);
  });

  test("what there is not is said in a sentence", async () => {
    await expect(look(repository, "nowhere..main")).rejects.toThrow(
      'There is no revision "nowhere" in this repository.',
    );
    await expect(look(repository, "--output=x")).rejects.toThrow(
      'There is no revision "--output=x" in this repository.',
    );
    await expect(look(repository, "main~99")).rejects.toThrow(GitError);
  });
});

test("of 36 frames the two that changed are drawn", async () => {
  const repository = new Repository();
  try {
    const files = names(36);
    repository.write(".gitignore", "scans/\n");
    repository.scans("scans", files.slice(0, 20));
    repository.write("stocks/northlight.stock.yaml", stockText(1.35));
    repository.write("film.roll.yaml", rollText("Film", 36, "stocks/northlight.stock.yaml"));
    repository.commit("start");
    repository.swap("film.roll.yaml", "scan: F07.dng", "scan: F07.dng\n    positive: { exposure: 0.5 }");
    repository.swap("film.roll.yaml", "scan: F11.dng", "scan: F11.dng\n    positive: { contrast: 1.9 }");
    const { review, drawn } = await look(repository);
    expect(
      of(review, "film.roll.yaml")
        .frames.map((frame) => frame.id)
        .toSorted(),
    ).toEqual(["07", "11"]);
    expect(drawn).toBe(2);
  } finally {
    repository.remove();
  }
});

describe("a change that nobody sees", () => {
  const repository = new Repository();
  afterAll(() => repository.remove());
  beforeAll(() => {
    repository.write(".gitignore", "scans/\n");
    repository.scans("scans", names(4));
    repository.write("stocks/northlight.stock.yaml", stockText(1.35));
    repository.write("film.roll.yaml", rollText("Film", 4, "stocks/northlight.stock.yaml"));
    repository.commit("start");
    repository.swap("stocks/northlight.stock.yaml", "1.35", "1.352");
    repository.swap("film.roll.yaml", "scan: F02.dng", "scan: F02.dng\n    positive: { exposure: 0.5 }");
    repository.swap("film.roll.yaml", "scan: F03.dng", "scan: F03.dng\n    positive: { saturation: 1.001 }");
  });

  test("is folded, and counted nowhere among what looks different", async () => {
    const { review } = await look(repository);
    const lines = textOf(review);
    expect(lines).toContain("  impact: 1 of 4 frames of Film look different");
    expect(lines).toContain("  no visible change: frames 01, 04");
    // A value of its own is told, seen or not.
    expect(lines.find((line) => line.startsWith("  frame 03"))).toMatch(
      /^ {2}frame 03: no visible change, ΔE00 mean 0/,
    );
    expect(lines.some((line) => line.startsWith("  frame 01"))).toBe(false);
    expect(lines.at(-1)).toMatch(/^1 frame in 1 roll looks different\. .* No visible change in 3 frames\.$/);
    expect(markdownOf(review)).toContain("| frames 01, 04 | | follows the roll | no visible change |");
    expect(of(review, "stocks/northlight.stock.yaml").impact).toMatchObject([{ frames: 1, of: 4 }]);
  });

  test("after an edit the words follow at once, and only the frame that was edited is drawn again", async () => {
    const earlier = await look(repository);
    const text = repository.read("film.roll.yaml").replace("\n    positive: { exposure: 0.5 }", "");
    const read = await readHistory({ folder: repository.root, range: "" });
    const after = {
      ...read.snapshots.after,
      recipes: new Map([...read.snapshots.after.recipes, ["film.roll.yaml", text]]),
    };
    const history = { ...read, snapshots: { ...read.snapshots, after } };
    const reworded = await rewordReview(history, earlier);
    const frames = new Map(of(reworded.review, "film.roll.yaml").frames.map((one) => [one.id, one]));
    expect(of(reworded.review, "film.roll.yaml").changes.some(({ frame }) => frame === "02")).toBe(false);
    expect(frames.get("02")).toMatchObject({ pending: true, after: { type: "jpeg" } });
    expect(frames.get("01")?.pending).toBeUndefined();
    const pool = countingPool();
    const { review } = await makeReview(history, openWorkspace(history.root), pool, { long: 64, earlier });
    expect(pool.counts.get("compare-frame")).toBe(1);
    expect(textOf(review)).toContain("  no visible change: frames 01, 02, 04");
    expect(textOf(review).at(-1)).toBe("2 recipes changed. No visible change in 4 frames.");
  });
});

describe("scans", () => {
  const repository = new Repository();
  afterAll(() => repository.remove());

  test("that are not there, or are other files than they were, are told with their frames", async () => {
    repository.scans("scans", names(3));
    repository.write("stocks/northlight.stock.yaml", stockText(1.35));
    repository.write("film.roll.yaml", rollText("Film", 3, "stocks/northlight.stock.yaml"));
    repository.commit("start");
    repository.write("scans/F01.dng", scan(9));
    rmSync(join(repository.root, "scans/F02.dng"));
    repository.swap(
      "film.roll.yaml",
      "light: { blank: LIGHT.dng }",
      "light: { blank: LIGHT.dng }\npositive: { exposure: 0.2 }",
    );
    const { review } = await look(repository);
    const notes = new Map(of(review, "film.roll.yaml").frames.map((frame) => [frame.id, frame.notes]));
    expect(notes.get("01")).toEqual([
      "The scan F01.dng itself changed; both pictures are drawn from the file that is there now.",
    ]);
    expect(notes.get("02")?.[0]).toMatch(/^No picture: .*F02\.dng/);
    expect(notes.get("03")).toEqual([]);
  });

  test("that git keeps as pointers to large files are compared by what these stand for", async () => {
    const pointed = new Repository();
    pointed.scans("scans", names(2));
    const bytes = readFileSync(join(pointed.root, "scans/F01.dng"));
    const sha256 = createHash("sha256").update(bytes).digest("hex");
    // The form of a pointer: Git LFS specification, v1.
    const pointer = `version https://git-lfs.github.com/spec/v1\noid sha256:${sha256}\nsize ${bytes.length}\n`;
    pointed.write("scans/F01.dng", pointer);
    pointed.write("scans/F02.dng", pointer);
    pointed.write("film.roll.yaml", rollText("Film", 2, "northlight.stock.yaml"));
    pointed.write("northlight.stock.yaml", stockText(1.35));
    pointed.commit("pointers");
    pointed.scans("scans", names(2));
    pointed.swap("northlight.stock.yaml", "1.35", "1.6");
    const { review } = await look(pointed);
    const notes = of(review, "film.roll.yaml").frames.map((frame) => [frame.id, frame.notes.length]);
    expect(Object.fromEntries(notes)).toEqual({ "01": 0, "02": 1 });
    pointed.remove();
  });
});

test("line ends alone are no change", async () => {
  const repository = new Repository();
  repository.scans("scans", names(1));
  repository.write("stocks/northlight.stock.yaml", stockText(1.35));
  repository.write("a/film.roll.yaml", rollText("Film", 1));
  repository.write("b/film.roll.yaml", rollText("Other", 1).replaceAll("\n", "\r\n"));
  repository.git("config", "core.autocrlf", "false");
  repository.commit("start");
  for (const file of ["stocks/northlight.stock.yaml", "a/film.roll.yaml"])
    repository.write(file, repository.read(file).replaceAll("\n", "\r\n"));
  repository.write("b/film.roll.yaml", repository.read("b/film.roll.yaml").replaceAll("\r\n", "\n"));
  expect(brief((await look(repository)).review)).toEqual([]);
  repository.remove();
});

describe("where there is nothing to compare with", () => {
  test("a folder without git", async () => {
    const folder = new Repository(false);
    await expect(look(folder)).rejects.toThrow(/lies in no git repository/);
    folder.remove();
  });

  test("no git on the machine", async () => {
    const folder = new Repository(false);
    const options = { folder: folder.root, range: "", program: join(folder.root, "no-such-git") };
    await expect(readHistory(options)).rejects.toThrow("The git command was not found");
    folder.remove();
  });

  test("a repository without a commit: everything is new", async () => {
    const repository = new Repository();
    repository.write("stocks/northlight.stock.yaml", stockText(1.35));
    const { review } = await look(repository);
    expect(review.before.label).toBe("nothing (no commit yet)");
    expect(brief(review)).toEqual(["stocks/northlight.stock.yaml added"]);
    repository.remove();
  });

  test("a recipe with errors says so, at its place", async () => {
    const repository = new Repository();
    repository.write("a.stock.yaml", stockText(1.35));
    repository.commit("start");
    repository.swap("a.stock.yaml", "contrast: 1.35", "contrast: 99");
    const { review } = await look(repository);
    expect(of(review, "a.stock.yaml").problems).toEqual([expect.stringMatching(/^a\.stock\.yaml:7:13 /)]);
    repository.remove();
  });
});
