/** A source of numbers strictly between 0 and 1. */
export type Random = () => number;

/** `xoshiro128**` from four words of state, not all zero: whole numbers from 0 to 2^32 - 1. */
export function xoshiroWords(a: number, b: number, c: number, d: number): () => number {
  let s0 = a | 0;
  let s1 = b | 0;
  let s2 = c | 0;
  let s3 = d | 0;
  return () => {
    const scrambled = Math.imul(s1, 5);
    const word = Math.imul((scrambled << 7) | (scrambled >>> 25), 9) >>> 0;
    const shifted = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= shifted;
    s3 = (s3 << 11) | (s3 >>> 21);
    return word;
  };
}

/**
 * A seeded stream of numbers in (0, 1), 32 bits each; streams of one seed differ by `stream`, so that work cut
 * into pieces gives the same figures on any number of threads.
 *
 * Generator: D. Blackman, S. Vigna, Scrambled linear pseudorandom number generators, ACM Trans. Math. Software 47
 * (2021), xoshiro128**; its state is filled by a Weyl sequence through the 32-bit finaliser of MurmurHash3
 * (A. Appleby, public domain), as its authors advise of a generator of another kind.
 */
export function seededStream(seed: number, stream: number): Random {
  let weyl = mix(mix(seed >>> 0) ^ Math.imul(stream + 1, 0x9e3779b9));
  const fill = (): number => {
    weyl = (weyl + 0x9e3779b9) | 0;
    return mix(weyl);
  };
  const next = xoshiroWords(fill(), fill(), fill(), fill() | 1);
  return () => (next() + 0.5) / 4294967296;
}

function mix(word: number): number {
  let mixed = word | 0;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return mixed ^ (mixed >>> 16);
}
