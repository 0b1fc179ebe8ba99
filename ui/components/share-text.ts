import { sufficiencyText } from "./figures.ts";

const roundedUp = (p: number, decimals: number): string => {
  const factor = 10 ** decimals;
  const up = Math.ceil(p * factor - 1e-6) / factor;
  return up >= 1 ? "1" : up.toFixed(decimals);
};

/** "at least 0.97, at most 0.98", the least rounded down, the most up; one figure where they hardly differ. */
export function betweenText(least: number, most: number): string {
  const text = sufficiencyText(least);
  const decimals = text.startsWith("0.") ? text.length - 2 : 2;
  if (!(most - least >= 0.5 / 10 ** decimals)) return text;
  if (least < 0.01) return `at most ${roundedUp(most, decimals)}`;
  return `at least ${text}, at most ${roundedUp(most, decimals)}`;
}

/** A share found by trial, and its interval. */
interface Share {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Decimals at which the interval's ends lie some units apart. */
const decimalsOf = ({ low, high }: Share): number =>
  Math.min(6, Math.max(2, Math.ceil(-Math.log10(Math.max(1e-9, high - low))) + 1));

const figure = (p: number, decimals: number): string =>
  p <= 0 ? "0" : p >= 1 ? "1" : p.toFixed(decimals);

/** "0.9897" and "(0.9890 to 0.9903)": as many decimals as the interval bears, its ends rounded outwards. */
export function shareWithRange(share: Share): readonly [share: string, range: string] {
  const decimals = decimalsOf(share);
  const factor = 10 ** decimals;
  const low = Math.floor(share.low * factor + 1e-6) / factor;
  const high = Math.ceil(share.high * factor - 1e-6) / factor;
  return [figure(share.value, decimals), `(${figure(low, decimals)} to ${figure(high, decimals)})`];
}

/** A reckoned figure, rounded down, or its least and most, with the decimals of the share it stands beside. */
export function besideShareText(least: number, most: number, share: Share): string {
  const decimals = decimalsOf(share);
  const factor = 10 ** decimals;
  const low = figure(Math.floor(least * factor + 1e-6) / factor, decimals);
  if (figure(least, decimals) === figure(most, decimals)) return low;
  return `at least ${low}, at most ${figure(Math.ceil(most * factor - 1e-6) / factor, decimals)}`;
}
