import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chanceText, moneyAmountText, sufficiencyText } from "../../ui/components/figures.ts";
import { besideShareText, betweenText, shareWithRange } from "../../ui/components/share-text.ts";
import { readRoute, writeRoute } from "../../ui/routing/route.ts";

describe("figures on the screen", () => {
  it("never show a sufficiency better than it is", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1, maxExcluded: true, noNaN: true }), (p) => {
        expect(Number(sufficiencyText(p))).toBeLessThanOrEqual(p + 1e-6);
      }),
    );
    expect(sufficiencyText(0.9999999999)).toBe("0.99999");
    expect(sufficiencyText(1)).toBe("1");
    expect(sufficiencyText(0.0001)).toBe("under 0.01");
    expect(sufficiencyText(0.9712834)).toBe("0.97");
    expect(sufficiencyText(0.9499)).toBe("0.94");
    expect(sufficiencyText(0.9987)).toBe("0.998");
    expect(sufficiencyText(0.95)).toBe("0.95");
  });
  it("never show a narrower range than it is", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.9999, noNaN: true }),
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        (least, share) => {
          const most = least + share * (1 - least);
          const found = /^(?:at least ([\d.]+), )?at most ([\d.]+)$/.exec(betweenText(least, most));
          if (found === null) {
            expect(betweenText(least, most)).toBe(sufficiencyText(least));
            expect(most - least).toBeLessThan(0.005);
            return;
          }
          expect(Number(found[1] ?? 0)).toBeLessThanOrEqual(least + 1e-6);
          expect(Number(found[2])).toBeGreaterThanOrEqual(most - 1e-6);
        },
      ),
    );
    expect(betweenText(0.9712, 0.9834)).toBe("at least 0.97, at most 0.99");
    expect(betweenText(0.9712, 0.9713)).toBe("0.97");
    expect(betweenText(0.002, 0.3)).toBe("at most 0.30");
    expect(betweenText(0.5, 1)).toBe("at least 0.50, at most 1");
  });
  it("write a share with as many decimals as its interval bears", () => {
    const share = { value: 0.98968, low: 0.98903, high: 0.99029 };
    expect(shareWithRange(share)).toEqual(["0.9897", "(0.9890 to 0.9903)"]);
    expect(besideShareText(0.99001, 0.99001, share)).toBe("0.9900");
    expect(besideShareText(0.981, 0.9923, share)).toBe("at least 0.9810, at most 0.9923");
    expect(besideShareText(0.9999999, 0.9999999, { value: 1, low: 0.99996, high: 1 })).toBe(
      "0.999999",
    );
    expect(shareWithRange({ value: 0, low: 0, high: 3.8e-5 })).toEqual(["0", "(0 to 0.000038)"]);
  });
  it("write small chances as one in so many", () => {
    expect(chanceText(0.025)).toBe("1 in 40");
    expect(chanceText(1 / 7.69)).toBe("1 in 7");
    expect(chanceText(1 / 1234)).toBe("1 in 1\u202f200");
    expect(chanceText(0.35)).toBe("0.35");
    expect(chanceText(0)).toBe("none");
  });
  // Digits of minor units: ISO 4217 list one (EUR 2, JPY 0, KWD 3).
  it("divide money by its currency's own minor unit", () => {
    expect(moneyAmountText(186043, "EUR").replace(/[^\d]/g, "")).toBe("186043");
    expect(moneyAmountText(500, "JPY")).toBe("500");
    expect(moneyAmountText(1500, "KWD")).toMatch(/^1.500$/);
  });
});

describe("addresses", () => {
  it("come back as the question they were written from", () => {
    const address = writeRoute("crossing", [
      ["vessel", "Vessel:a&b=c"],
      ["days", "16"],
      ["longest", ""],
    ]);
    const route = readRoute(address);
    expect(route.page).toBe("crossing");
    expect([...route.query]).toEqual([
      ["vessel", "Vessel:a&b=c"],
      ["days", "16"],
    ]);
  });
  it("that are unknown lead to the overview", () => {
    expect(readRoute("#/nowhere?x=1").page).toBe("overview");
    expect(readRoute("").page).toBe("overview");
  });
});
