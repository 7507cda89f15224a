/** The text of a recipe's bytes. A recipe is UTF-8; what is not is never replaced by other letters. */

/** A byte that is no UTF-8 stands in a text as U+DC00 plus the byte: half a surrogate pair, which no valid text has. */
const BAD_BYTE = 0xdc00;
const badByte = /(?<![\ud800-\udbff])[\udc80-\udcff]/;

/** Of valid UTF-8 its text, with the byte order mark. Otherwise each bad byte stays visible, so that readers refuse it. */
export function decodeRecipe(bytes: Uint8Array): string {
  const strict = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  try {
    return strict.decode(bytes);
  } catch {
    let text = "";
    for (let at = 0; at < bytes.length;) {
      const length = sequenceLength(bytes[at]!);
      try {
        text += strict.decode(bytes.subarray(at, at + length));
        at += length;
      } catch {
        text += String.fromCharCode(BAD_BYTE + bytes[at]!);
        at++;
      }
    }
    return text;
  }
}

/** Bytes of the character that begins with a byte (RFC 3629). */
const sequenceLength = (first: number): number => (first < 0xc0 ? 1 : first < 0xe0 ? 2 : first < 0xf0 ? 3 : 4);

/** The first byte of a text that is not UTF-8, and where it stands; undefined for a text that was. */
export function badByteIn(text: string): { at: number; byte: number } | undefined {
  const at = text.search(badByte);
  return at < 0 ? undefined : { at, byte: text.charCodeAt(at) - BAD_BYTE };
}

/** A text as an editor shows it, with � for what it could not read, as `decodeRecipe` gives it; for bytes that are not UTF-8. */
export const withBadBytes = (shown: string): string => shown.replaceAll("\ufffd", String.fromCharCode(BAD_BYTE + 0xff));
