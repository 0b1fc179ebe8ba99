import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chanceText, moneyAmountText, sufficiencyText } from "../../ui/components/figures.ts";
import { readRoute, writeRoute } from "../../ui/routing/route.ts";

describe("figures on the screen", () => {
  it("never show a sufficiency better than it is", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1, maxExcluded: true, noNaN: true }), (p) => {
        expect(Number(sufficiencyText(p))).toBeLessThanOrEqual(p + 1e-6);
      }),
    );
    expect(sufficiencyText(0.0001)).toBe("under 0.01");
    expect(sufficiencyText(0.9712834)).toBe("0.97");
    expect(sufficiencyText(0.9499)).toBe("0.94");
    expect(sufficiencyText(0.9987)).toBe("0.998");
    expect(sufficiencyText(0.95)).toBe("0.95");
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
