/** A distribution of whole numbers, plainly: entry k is Pr(D = k). */
export type Masses = readonly number[];

const negligible = 1e-17;

/** Terms of a recursion from Pr(0) on, until they have passed the mean and vanish. */
function byRecursion(first: number, mean: number, ratio: (k: number) => number): Masses {
  const masses = [first];
  for (let k = 0; k < 10_000; k++) {
    const next = (masses[k] ?? 0) * ratio(k);
    if (next === 0 || (k > mean && next < negligible)) break;
    masses.push(next);
  }
  return masses;
}

/** Poisson: Pr(0) = e^-m, Pr(k+1) = Pr(k) m / (k+1). */
export const poissonMasses = (mean: number): Masses =>
  byRecursion(Math.exp(-mean), mean, (k) => mean / (k + 1));

/** Gamma(a, b) rate seen over an exposure t: Pr(0) = (b/(b+t))^a, Pr(k+1) = Pr(k) (a+k)/(k+1) t/(b+t). */
export const gammaMixedMasses = (a: number, b: number, exposure: number): Masses =>
  byRecursion(
    (b / (b + exposure)) ** a,
    (a * exposure) / b,
    (k) => ((a + k) / (k + 1)) * (exposure / (b + exposure)),
  );

/** Binomial: Pr(0) = (1-l)^n, Pr(k+1) = Pr(k) (n-k)/(k+1) l/(1-l). */
export function binomialMasses(n: number, chance: number): Masses {
  if (chance >= 1) return certain(n);
  return byRecursion(
    (1 - chance) ** n,
    n * chance,
    (k) => (((n - k) / (k + 1)) * chance) / (1 - chance),
  );
}

/** Exactly n pieces. */
export const certain = (n: number): Masses => [...Array.from({ length: n }, () => 0), 1];

/** Distribution of the sum of independent demands, by the defining double sum. */
export function sumOf(terms: readonly Masses[]): Masses {
  let total: number[] = [1];
  for (const term of terms) {
    const next = Array.from({ length: total.length + term.length - 1 }, () => 0);
    total.forEach((p, i) => {
      term.forEach((q, j) => {
        next[i + j] = (next[i + j] ?? 0) + p * q;
      });
    });
    while (next.length > 1 && (next.at(-1) ?? 0) < negligible) next.pop();
    total = next;
  }
  return total;
}

export const meanOfMasses = (masses: Masses): number =>
  masses.reduce((sum, p, k) => sum + k * p, 0);

/** Pr(D > x), summed from the far end so that small tails keep their digits; never above 1. */
export function exceeds(masses: Masses, x: number): number {
  let tail = 0;
  for (let k = masses.length - 1; k > x; k--) tail += masses[k] ?? 0;
  return Math.min(1, tail);
}

/** Simpson's rule on an even number of panels. */
function simpson(f: (x: number) => number, to: number, panels: number): number {
  const h = to / panels;
  let sum = f(0) + f(to);
  for (let i = 1; i < panels; i++) sum += f(i * h) * (i % 2 === 1 ? 4 : 2);
  return (sum * h) / 3;
}

/**
 * Renewals of one unit in an exposure, its lives Weibull of given mean and shape; `age` undefined = equilibrium.
 *
 * Method, chosen to share nothing with the program's: the scale is mean / ∫ exp(-u^β) du by Simpson's rule (no
 * gamma function); Pr(N ≥ k+1) = ∫ Pr(N ≥ k in t-x) dF(x) as a trapezoid Riemann-Stieltjes sum on one fine uniform
 * grid (error of order h²). Source of the recursion: D. R. Cox, Renewal Theory (1962), chapters 2 and 3.
 */
export function renewalMasses(
  meanLife: number,
  shape: number,
  age: number | undefined,
  exposure: number,
): Masses {
  if (exposure === 0) return [1];
  const scale = meanLife / simpson((u) => Math.exp(-(u ** shape)), 40 ** (1 / shape), 200_000);
  const lasts = (x: number): number => Math.exp(-((x / scale) ** shape));
  const points = Math.max(1500, Math.ceil((1500 * exposure) / meanLife));
  const h = exposure / points;
  const fails = Array.from({ length: points + 1 }, (_, i) => 1 - lasts(i * h));
  let reached: number[];
  if (age === undefined) {
    // (1/mean) ∫_0^x (1-F), Simpson's rule panel by panel.
    reached = [0];
    for (let i = 0; i < points; i++) {
      const panel = (lasts(i * h) + 4 * lasts((i + 0.5) * h) + lasts((i + 1) * h)) * (h / 6);
      reached.push((reached[i] ?? 0) + panel / meanLife);
    }
  } else {
    reached = fails.map((_, i) => 1 - lasts(age + i * h) / lasts(age));
  }
  const steps = Float64Array.from(
    { length: points },
    (_, i) => (fails[i + 1] ?? 0) - (fails[i] ?? 0),
  );
  const masses: number[] = [];
  let before = 1;
  for (;;) {
    const now = reached[points] ?? 0;
    masses.push(before - now);
    before = now;
    if (now < 1e-13) break;
    const middle = Float64Array.from(
      { length: points },
      (_, i) => ((reached[i] ?? 0) + (reached[i + 1] ?? 0)) / 2,
    );
    const next = [0];
    for (let j = 1; j <= points; j++) {
      let sum = 0;
      for (let i = 0; i < j; i++) sum += (steps[i] ?? 0) * (middle[j - 1 - i] ?? 0);
      next.push(sum);
    }
    reached = next;
  }
  return masses;
}
