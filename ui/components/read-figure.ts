/** The figure in a field; `undefined` where nothing stands there, a sentence where it is none. */
export function readFigure(text: string, most: number): number | undefined | string {
  const typed = text.trim().replaceAll(/[\s\u202f]/g, "");
  if (typed === "") return undefined;
  if (/^\d+,\d{3}$/.test(typed)) return "Write 1200 or 1.20: this can be read in two ways.";
  if (!/^\d+([.,]\d+)?$/.test(typed)) return "Write a number, as 12.50.";
  const value = Number(typed.replace(",", "."));
  return value > most ? `At most ${most}.` : value;
}
