import fc from "fast-check";
import { expect, test } from "vitest";
import { shareOut } from "../../api/scoring/minimums/share-out.ts";

const cases = fc.record({
  supplies: fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 1, maxLength: 4 }),
  needs: fc.array(
    fc.record({
      pieces: fc.integer({ min: 0, max: 4 }),
      accepts: fc.uniqueArray(fc.integer({ min: 0, max: 3 }), { maxLength: 4 }),
    }),
    { minLength: 1, maxLength: 4 },
  ),
});

test("shares out as many pieces as the tightest set of needs lets through", () => {
  fc.assert(
    fc.property(cases, ({ supplies, needs }) => {
      const usable = needs.map((need) => ({
        ...need,
        accepts: need.accepts.filter((supply) => supply < supplies.length),
      }));
      const met = shareOut(usable, supplies);
      // Max-flow min-cut: over every set S of needs, what is outside S plus what S can draw on.
      let tightest = Number.POSITIVE_INFINITY;
      for (let set = 0; set < 2 ** usable.length; set++) {
        const inside = usable.filter((_, at) => (set >> at) & 1);
        const outside = usable.filter((_, at) => !((set >> at) & 1));
        const drawn = new Set(inside.flatMap(({ accepts }) => accepts));
        const capacity =
          outside.reduce((sum, { pieces }) => sum + pieces, 0) +
          [...drawn].reduce((sum, supply) => sum + (supplies[supply] ?? 0), 0);
        tightest = Math.min(tightest, capacity);
      }
      expect(met.reduce((sum, pieces) => sum + pieces, 0)).toBe(tightest);
      met.forEach((pieces, at) => {
        expect(pieces).toBeLessThanOrEqual(usable[at]?.pieces ?? 0);
      });
    }),
    { numRuns: 400 },
  );
});
