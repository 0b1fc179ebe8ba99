/**
 * A column name without what does not tell names apart: case, accents, punctuation, doubled spaces.
 * "Réf. pièce" and "ref piece" become one; letters that are not accented Latin stay as they are.
 */
export function normaliseHeader(text: string): string {
  return text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/ß/g, "ss")
    .replace(/œ/g, "oe")
    .replace(/æ/g, "ae")
    .replace(/#/g, " no ")
    .replace(/[^\p{L}\p{N}%€£$]+/gu, " ")
    .trim();
}
