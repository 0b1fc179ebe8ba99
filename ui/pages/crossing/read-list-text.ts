/** Most bytes of a list the program takes. */
const mostBytes = 900_000;

/** Text of a list's file: UTF-16 where it says so, UTF-8 where it is that, else as western spreadsheets write. */
export function readListText(
  bytes: Uint8Array,
): { readonly text: string } | { readonly fault: string } {
  if (bytes.length > mostBytes)
    return {
      fault: `A minimum list may have ${mostBytes / 1000} kB; this file has ${Math.ceil(bytes.length / 1000)}. Keep its rules only.`,
    };
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff))
    return { text: new TextDecoder(first === 0xff ? "utf-16le" : "utf-16be").decode(bytes) };
  if (bytes.includes(0))
    return { fault: "This file is no text. Save the list as CSV and choose that file." };
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes) };
  } catch {
    return { text: new TextDecoder("windows-1252").decode(bytes) };
  }
}
