const plain = (text: string): string =>
  ` ${text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim()} `;

/**
 * Returns whether a text holds one of the phrases, word for word: case and punctuation are passed over, and the
 * phrase's last word may have a plural ending (s, es). No likeness is guessed. O(text x phrases).
 */
export function saysPhrase(text: string, phrases: readonly string[]): boolean {
  const words = plain(text);
  return phrases.some((phrase) => {
    const wanted = plain(phrase).trimEnd();
    return wanted !== "" && ["", "s", "es"].some((ending) => words.includes(`${wanted}${ending} `));
  });
}

/** Returns whether a text is one of the phrases and nothing more, by the same rules as `saysPhrase`. */
export function isPhrase(text: string, phrases: readonly string[]): boolean {
  const words = plain(text).trim();
  return phrases.some((phrase) => {
    const wanted = plain(phrase).trim();
    return wanted !== "" && ["", "s", "es"].some((ending) => words === `${wanted}${ending}`);
  });
}
