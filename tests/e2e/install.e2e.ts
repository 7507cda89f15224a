import { describe, expect, it } from "vitest";
import { useSession } from "./host/session.ts";
import { packedExtension, project } from "./host/editor/vsix.ts";
import { LIMIT, until } from "./host/wait.ts";

/** A roll with one misspelt key; file and folder have a space and an umlaut in their names. */
const file = "Hafen früh.roll.yaml";
const recipe = 'version: 1\ntitel: Harbour\nscans: scans\nframes:\n  "01":\n    scan: H0001.dng\n';

describe.each(["universal", "host"] as const)("the %s VSIX, installed", (kind) => {
  const session = useSession(() => ({
    vsix: [packedExtension(kind)],
    folder: "Fotos für Rollbook",
    files: { [file]: recipe },
  }));

  it("is active once a recipe is open", async () => {
    const { window, server } = session();
    await window.openFile(file);
    const id = `${project.publisher}.${project.name}`;
    const isActive = () =>
      server.exec((vscode, wanted) => vscode.extensions.getExtension(wanted)?.isActive ?? false, id);
    await expect.poll(isActive, { timeout: LIMIT }).toBe(true);
  });

  it("underlines a misspelt key, corrects it, and undoes that", async () => {
    const { window, text, assistance, picture } = session();
    const isThere = await text.waitForProblems("a problem at the misspelt key", (all) =>
      all.some((p) => p.text === "titel"),
    );
    expect(isThere.find((p) => p.text === "titel")).toMatchObject({ severity: "error", line: 2, column: 1 });

    const word = await text.boxOf("titel");
    const squiggle = await until("the squiggle", async () =>
      (await text.squiggles()).find((box) => box.bottom >= word.bottom && box.top <= word.bottom),
    );
    expect(Math.abs(squiggle.left - word.left)).toBeLessThanOrEqual(2);
    expect(Math.abs(squiggle.right - word.right)).toBeLessThanOrEqual(2);
    if (kind === "host") await picture("problem");

    const fix = (await assistance.fixes("titel")).find((title) => title.includes("title"));
    await assistance.dismiss();
    await assistance.fix("titel", fix ?? "a fix that names the key title");
    const fixed = recipe.replace("titel", "title");
    expect(await text.waitForText("the corrected key", (now) => now === fixed)).toBe(fixed);
    await until("an editor with something to save", () => window.isDirty());
    await text.waitForProblems("the problem to go", (all) => all.every((p) => p.text !== "title"));

    await text.undo();
    expect(await text.waitForText("the old key", (now) => now.includes("titel"))).toBe(recipe);
  });

  it("asks for nothing outside this machine", () => {
    expect(session().window.watched.foreign).toEqual([]);
  });
});
