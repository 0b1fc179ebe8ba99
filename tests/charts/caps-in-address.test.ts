import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { kitRequest } from "../../api/contract/kit.contract.ts";
import { massOf, massValue, roomOf, roomValue } from "../../ui/components/units.ts";
import { cappedQuestion, readLimits, writeLockers } from "../../ui/pages/crossing/cap-question.ts";
import { readRoute, writeRoute } from "../../ui/routing/route.ts";

const queryOf = (entries: Readonly<Record<string, string>>) =>
  readRoute(writeRoute("crossing", Object.entries(entries))).query;

describe("caps in the address", () => {
  it("ask as the program takes them, money in minor units of its own currency", () => {
    const asked = cappedQuestion(
      queryOf({
        mostmoney: "1200.5EUR",
        mostkg: "30",
        stow: "Locker:a~40~,Locker:b~~12.5,Locker:c~~",
        least: "mass",
        confirmed: "yes",
      }),
    );
    expect(kitRequest.parse(asked)).toEqual({
      objective: "mass",
      confirmedOnly: true,
      caps: {
        cost: { minor: 120_050, currency: "EUR" },
        massKg: 30,
        lockers: [
          { locker: "Locker:a", volumeLitres: 40 },
          { locker: "Locker:b", massKg: 12.5 },
          { locker: "Locker:c" },
        ],
      },
    });
    // ISO 4217: the yen has no minor unit, the Kuwaiti dinar three digits.
    expect(cappedQuestion(queryOf({ mostmoney: "900JPY" })).caps?.cost?.minor).toBe(900);
    expect(cappedQuestion(queryOf({ mostmoney: "1.5KWD" })).caps?.cost?.minor).toBe(1500);
  });

  it("are none where nothing readable stands", () => {
    for (const entries of [{}, { mostkg: "much" }, { mostmoney: "12" }, { mostlitres: "-3" }])
      expect(cappedQuestion(queryOf(entries)).caps).toBeUndefined();
  });

  it("come back as they were written", () => {
    const figure = fc.option(fc.integer({ min: 0, max: 1e6 }), { nil: undefined });
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.stringMatching(/^Locker:[0-9a-z]{14}$/), { maxLength: 6 }),
        figure,
        figure,
        (ids, litres, kg) => {
          const lockers = ids.map((locker) => ({
            locker,
            ...(litres === undefined ? {} : { litres }),
            ...(kg === undefined ? {} : { kg }),
          }));
          expect(readLimits(queryOf({ stow: writeLockers(lockers) })).lockers).toEqual(lockers);
        },
      ),
    );
  });

  // NIST SP 811 (2008), appendix B.8: 1 lb = 0.45359237 kg, 1 cu ft = 28.316847 litres.
  it("are typed in the reader's units and kept in kilograms and litres", () => {
    expect(massOf(50, "imperial")).toBeCloseTo(22.679_62, 5);
    expect(massValue(massOf(50, "imperial"), "imperial")).toBe(50);
    expect(roomOf(2, "imperial")).toBeCloseTo(56.633_69, 4);
    expect(roomValue(roomOf(2, "imperial"), "imperial")).toBe(2);
    expect(massOf(50, "metric")).toBe(50);
  });
});
