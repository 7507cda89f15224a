import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { asJson, rollbook } from "./command.ts";

const folder = mkdtempSync(join(tmpdir(), "notes-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const roll = join(folder, "harbour.roll.yaml");
const notes = join(folder, "notes.csv");
const TEXT = `version: 1
frames:
  # the first
  "01":
    skip: true
  "02":
    skip: true
    title: Pier
`;

it("prints what a table of notes would change, and writes it when asked to", async () => {
  writeFileSync(roll, TEXT);
  writeFileSync(notes, "frame;title;shutter\n1;Ferry;1/250\n2;Mole;B\n9;Gulls;\n");
  const dry = await rollbook(["notes", notes, roll]);
  expect(dry.code).toBe(0);
  expect(dry.out).toContain("frame 01  exposed.shutter: 1/250");
  expect(dry.out).toContain("frame 02  title: Pier → Mole (not replaced; --overwrite replaces it)");
  expect(dry.out).toContain("2 values of 1 frame would be written");
  expect(dry.err).toContain('Row 3, column shutter: "B" cannot be read; it was left out. Write it as in 1/250');
  expect(dry.err).toContain("Row 4 is about frame 9, which the roll does not have; it was left out.");
  expect(readFileSync(roll, "utf8")).toBe(TEXT);

  const written = await asJson(["notes", notes, roll, "--write"]);
  expect(written.json).toMatchObject({ ok: true, written: true, kept: [{ frame: "02", value: "Mole" }] });
  expect(readFileSync(roll, "utf8")).toBe(
    TEXT.replace(
      '"01":\n    skip: true\n',
      '"01":\n    skip: true\n    title: Ferry\n    exposed: { shutter: 1/250 }\n',
    ),
  );

  const again = await rollbook(["notes", notes, roll, "--write", "--overwrite"]);
  expect(again.out).toContain("Wrote 1 value of 1 frame");
  expect(readFileSync(roll, "utf8")).toContain("title: Mole");
  expect((await rollbook(["notes", notes, roll])).out).toContain("has all that the notes state already");
});

it("refuses a table without frames, and a stock", async () => {
  writeFileSync(roll, TEXT);
  writeFileSync(notes, "title\nFerry\n");
  const { code, err } = await rollbook(["notes", notes, roll]);
  expect(code).not.toBe(0);
  expect(err).toContain('no column "frame"');
  const stock = join(folder, "n.stock.yaml");
  writeFileSync(stock, "version: 1\n");
  expect((await rollbook(["notes", notes, stock])).err).toContain("notes go into a roll");
});
