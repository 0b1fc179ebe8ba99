import { Problem } from "../../api/errors/problem.ts";

/** How the bytes of a file were turned into text. */
export type TextEncoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

export interface DecodedText {
  readonly text: string;
  readonly encoding: TextEncoding;
  /** True if a byte order mark stood at the start (it is not part of `text`). */
  readonly hadByteOrderMark: boolean;
}

/** First bytes of files that people try to import instead of a text table, and what to do about it. */
const magicNumbers: readonly (readonly [name: string, bytes: readonly number[]])[] = [
  ["a workbook or another zipped file", [0x50, 0x4b, 0x03, 0x04]],
  ["an old binary workbook", [0xd0, 0xcf, 0x11, 0xe0]],
  ["a PDF document", [0x25, 0x50, 0x44, 0x46, 0x2d]],
  ["a PNG picture", [0x89, 0x50, 0x4e, 0x47]],
  ["a JPEG picture", [0xff, 0xd8, 0xff]],
  ["a gzip archive", [0x1f, 0x8b, 0x08]],
  ["a SQLite database", [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65, 0x20, 0x66]],
];

const startsWith = (bytes: Uint8Array, start: readonly number[]): boolean =>
  start.every((byte, index) => bytes[index] === byte);

/** First words of text files that are no tables. */
const textForms: readonly (readonly [name: string, start: RegExp])[] = [
  ["a web page", /^\s*(?:<!--[\s\S]*?-->\s*)?<(?:!doctype html|html|head|body|table)\b/i],
  ["an XML document", /^\s*<\?xml\b/i],
  ["a JSON document", /^\s*(?:\[\s*)?\{\s*"/],
  ["a word processor's document (RTF)", /^\{\\rtf/],
];

function refuse(what: string): never {
  throw new Problem(
    "file-binary",
    `The file must be a table in plain text (CSV); this is ${what}. Open it in a spreadsheet and save it as "CSV UTF-8".`,
  );
}

/** Which byte order a NUL-ridden sample without a mark has: Latin letters leave every second byte 0. */
function guessUtf16(sample: Uint8Array): "utf-16le" | "utf-16be" | undefined {
  let even = 0;
  let odd = 0;
  for (let index = 0; index < sample.length; index += 1) {
    if (sample[index] !== 0) continue;
    if (index % 2 === 0) even += 1;
    else odd += 1;
  }
  const pairs = sample.length / 2;
  if (odd > pairs * 0.1 && even * 20 < odd) return "utf-16le";
  if (even > pairs * 0.1 && odd * 20 < even) return "utf-16be";
  return undefined;
}

/** Share of control characters that no text table holds, in a sample of at most 64 kB. */
function controlShare(sample: Uint8Array): number {
  let controls = 0;
  for (const byte of sample) {
    if (byte < 32 && byte !== 9 && byte !== 10 && byte !== 13 && byte !== 12 && byte !== 26) {
      controls += 1;
    }
  }
  return sample.length === 0 ? 0 : controls / sample.length;
}

/**
 * The text of a file, with its encoding found out: a byte order mark decides; then NUL bytes on one
 * parity mean UTF-16; then well-formed UTF-8; else Windows-1252, in which every byte means something.
 * Throws `file-empty` for no bytes (or only white space) and `file-binary` for anything not text.
 * Source: WHATWG Encoding Standard (labels, byte order marks, fatal decoding).
 */
export function decodeText(bytes: Uint8Array): DecodedText {
  const decoded = decode(bytes);
  if (decoded.text.trim() === "") {
    throw new Problem(
      "file-empty",
      `A file must hold a header line and at least one row; this one holds ${bytes.length} bytes and no text. Check that the right file was chosen.`,
    );
  }
  const form = textForms.find(([, start]) => start.test(decoded.text.slice(0, 2000)));
  if (form) refuse(form[0]);
  return decoded;
}

function decode(bytes: Uint8Array): DecodedText {
  const marked = (encoding: TextEncoding): DecodedText => ({
    text: new TextDecoder(encoding).decode(bytes),
    encoding,
    hadByteOrderMark: true,
  });
  if (startsWith(bytes, [0xef, 0xbb, 0xbf])) return marked("utf-8");
  if (startsWith(bytes, [0xff, 0xfe])) return marked("utf-16le");
  if (startsWith(bytes, [0xfe, 0xff])) return marked("utf-16be");
  const magic = magicNumbers.find(([, start]) => startsWith(bytes, start));
  if (magic) refuse(magic[0]);
  const sample = bytes.subarray(0, 65_536);
  const plain = (encoding: TextEncoding): DecodedText => ({
    text: new TextDecoder(encoding).decode(bytes),
    encoding,
    hadByteOrderMark: false,
  });
  // A Buffer's search goes many bytes at a time; the array's own, one by one.
  const nul = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).indexOf(0);
  if (nul !== -1) {
    const utf16 = guessUtf16(sample);
    if (utf16 !== undefined) return plain(utf16);
    let line = 1;
    for (let at = bytes.indexOf(10); at !== -1 && at < nul; at = bytes.indexOf(10, at + 1))
      line += 1;
    refuse(`binary data (it holds NUL bytes, the first on line ${line})`);
  }
  if (controlShare(sample) > 0.02) refuse("binary data (it holds control characters)");
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return { text, encoding: "utf-8", hadByteOrderMark: false };
  } catch {
    return plain("windows-1252");
  }
}
