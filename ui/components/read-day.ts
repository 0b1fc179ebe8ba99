const months = "jan feb mar apr may jun jul aug sep oct nov dec".split(" ");

const iso = (year: number, month: number, day: number): string | undefined => {
  const at = new Date(Date.UTC(year, month - 1, day));
  if (at.getUTCMonth() !== month - 1 || at.getUTCDate() !== day || year < 1900 || year > 2200)
    return undefined;
  return at.toISOString().slice(0, 10);
};

/** The ISO day a person typed: 2027-01-12, 12 Jan 2027 or 12.1.2027 (day first); nothing where it is no day. */
export function readDay(text: string): string | undefined {
  const typed = text.trim().toLowerCase();
  const byIso = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(typed);
  if (byIso !== null) return iso(Number(byIso[1]), Number(byIso[2]), Number(byIso[3]));
  const byPoints = /^(\d{1,2})[./](\d{1,2})[./](\d{4})$/.exec(typed);
  if (byPoints !== null) return iso(Number(byPoints[3]), Number(byPoints[2]), Number(byPoints[1]));
  const byWords = /^(\d{1,2})\.? ([a-z]{3})[a-z]*\.? (\d{4})$/.exec(typed);
  const month = months.indexOf(byWords?.[2] ?? "");
  return byWords === null || month < 0
    ? undefined
    : iso(Number(byWords[3]), month + 1, Number(byWords[1]));
}
