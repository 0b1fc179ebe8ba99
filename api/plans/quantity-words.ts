/** A count with its noun: "1 part", "12 parts"; thousands parted by a thin space. */
export function quantity(count: number, one: string, many = `${one}s`): string {
  return `${grouped(count)} ${count === 1 ? one : many}`;
}

/** An integer with a narrow no-break space between thousands (ISO 80000-1, 7.3.1). */
export const grouped = (count: number): string =>
  String(count).replaceAll(/\B(?=(\d{3})+$)/g, "\u202f");
