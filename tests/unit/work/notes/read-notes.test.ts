import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { readNotes } from "../../../../extension/work/notes/read-notes.ts";

const folder = mkdtempSync(join(tmpdir(), "notes-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const path = join(folder, "notes.csv");
const read = (bytes: string | Uint8Array) => {
  writeFileSync(path, bytes);
  return readNotes(path);
};

describe("a table of notes", () => {
  // Examples of RFC 4180, section 2: quoted cells hold commas, line ends and doubled quotes.
  test("is read by RFC 4180", () => {
    expect(read('frame,note\r\n1,"aaa, b ""CCC""\r\nd"\r\n')).toMatchObject({
      headings: ["frame", "note"],
      rows: [["1", 'aaa, b "CCC"\r\nd'], [""]],
    });
  });

  test.each([
    ["semicolons", "frame;aperture\n1;5,6\n"],
    ["tabs", "frame\taperture\n1\t5,6\n"],
  ])("is read with %s", (_, text) => {
    expect(read(text).rows[0]).toEqual(["1", "5,6"]);
  });

  test.each([
    ["UTF-8 with a mark", Buffer.from("\ufeffframe,place\n1,Sørhavn\n", "utf8")],
    ["UTF-16", Buffer.from("\ufeffframe,place\n1,Sørhavn\n", "utf16le")],
    ["Windows-1252", Buffer.from("frame,place\n1,Sørhavn\n", "latin1")],
  ])("is read as %s", (_, bytes) => {
    expect(read(bytes)).toMatchObject({ headings: ["frame", "place"], rows: [["1", "Sørhavn"], [""]] });
  });

  test.each([
    ["empty", "", /has no headings/],
    ["with quotes that do not end", 'frame,note\n1,"open\n', /quoted cell that does not end/],
    ["of bytes", "frame\0\0,\0\n", /is not a text/],
    ["too long", `frame\n${"1\n".repeat(10_001)}`, /more than 10000/],
  ])("that is %s is refused", (_, text, message) => {
    expect(() => read(text)).toThrow(message);
  });

  test("that is not there is refused by name", () => {
    expect(() => readNotes(join(folder, "none.csv"))).toThrow(/none\.csv/);
  });
});
