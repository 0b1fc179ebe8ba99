import fc from "fast-check";
import { expect, it } from "vitest";
import { voyageRequest } from "../../api/contract/voyage.contract.ts";
import { readLegs, voyageQuestion, writeLegs } from "../../ui/pages/voyage/voyage-question.ts";
import { readRoute, writeRoute } from "../../ui/routing/route.ts";

const queryOf = (entries: Readonly<Record<string, string>>) =>
  readRoute(writeRoute("voyage", Object.entries(entries))).query;

it("legs in the address come back as they were written", () => {
  const leg = fc
    .record({
      to: fc.stringMatching(/^[A-Za-zÀ-ÿ' -]{0,20}[A-Za-z]$/),
      days: fc.integer({ min: 1, max: 3650 }),
      longestDays: fc.option(fc.integer({ min: 1, max: 3650 }), { nil: undefined }),
      stayDays: fc.option(fc.integer({ min: 0, max: 300 }), { nil: undefined }),
    })
    .map(({ to, days, longestDays, stayDays }) => ({
      to: to.trim(),
      days,
      ...(longestDays === undefined ? {} : { longestDays }),
      ...(stayDays === undefined ? {} : { stayDays }),
    }));
  fc.assert(
    fc.property(fc.array(leg, { minLength: 1, maxLength: 6 }), (legs) => {
      const query = queryOf({ legs: writeLegs(legs) });
      expect(readLegs(query.get("legs"))).toEqual(legs);
    }),
  );
});

it("a voyage's question takes the kit's without its days and caps, and leaves out what is none", () => {
  const asked = voyageQuestion(
    queryOf({
      days: "16",
      longest: "20",
      mostkg: "10",
      passage: "0.9",
      from: "Mindelo",
      legs: "Praia~2~3~~Cabo Verde|~9~~~|Bridgetown~15~~~",
      delivers: "0.8",
      stay: "0",
      abroad: "yes",
    }),
  );
  expect(voyageRequest.parse(asked)).toEqual({
    targets: { passage: 0.9 },
    from: "Mindelo",
    legs: [
      { to: "Praia", days: 2, longestDays: 3, country: "Cabo Verde" },
      { to: "Bridgetown", days: 15 },
    ],
    reliability: 0.8,
    stayDays: 0,
    fromAbroad: true,
  });
  expect(voyageQuestion(queryOf({ delivers: "2", stay: "-1" }))).toEqual({});
});
