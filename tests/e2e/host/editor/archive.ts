import { readFileSync } from "node:fs";
import { inflateRawSync } from "node:zlib";

/** A file of a ZIP archive (a VSIX is one). */
export interface ArchivedFile {
  name: string;
  /** Bytes once unpacked. */
  size: number;
  /** Unpacks the file as text. */
  text(): string;
}

/**
 * Lists a ZIP archive by its central directory. Source: .ZIP File Format Specification (APPNOTE.TXT) 6.3, §4.3.
 * @throws Error when the file is no ZIP archive
 */
export function listArchive(path: string): ArchivedFile[] {
  const bytes = readFileSync(path);
  const end = bytes.lastIndexOf(Buffer.from("PK\x05\x06", "latin1"));
  if (end < 0) throw new Error(`${path} is no ZIP archive.`);
  const files: ArchivedFile[] = [];
  let at = bytes.readUInt32LE(end + 16);
  for (let n = bytes.readUInt16LE(end + 10); n > 0; n--) {
    const [method, packed, size] = [
      bytes.readUInt16LE(at + 10),
      bytes.readUInt32LE(at + 20),
      bytes.readUInt32LE(at + 24),
    ];
    const [nameLength, extraLength, commentLength] = [28, 30, 32].map((o) => bytes.readUInt16LE(at + o));
    const name = bytes.toString("utf8", at + 46, at + 46 + nameLength);
    const local = bytes.readUInt32LE(at + 42);
    const text = () => {
      const start = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
      const data = bytes.subarray(start, start + packed);
      return (method === 0 ? data : inflateRawSync(data)).toString("utf8");
    };
    files.push({ name, size, text });
    at += 46 + nameLength + extraLength + commentLength;
  }
  return files;
}
