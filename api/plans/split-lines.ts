const lineFeed = 10;

/**
 * Lines of UTF-8 text that comes in pieces, without their line feeds. At line feeds alone: JSON may hold the other
 * characters that readers of lines take for an end.
 */
export async function* splitLines(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
  let begun: Buffer[] = [];
  for await (const piece of pieces) {
    const bytes = Buffer.from(piece.buffer, piece.byteOffset, piece.byteLength);
    let from = 0;
    for (let end = bytes.indexOf(lineFeed); end >= 0; end = bytes.indexOf(lineFeed, from)) {
      yield Buffer.concat([...begun, bytes.subarray(from, end)]).toString("utf8");
      begun = [];
      from = end + 1;
    }
    if (from < bytes.length) begun.push(bytes.subarray(from));
  }
  if (begun.length > 0) yield Buffer.concat(begun).toString("utf8");
}
