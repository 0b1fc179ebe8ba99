import { expect, it } from "vitest";
import type { OverviewAnswer } from "../../api/contract/find.contract.ts";
import { vesselsToLookInto } from "../../ui/pages/overview/use-fleet-readiness.ts";

it("looks into vessels that sail first, and into no more than twelve of a large fleet", () => {
  const vessels = Array.from({ length: 150 }, (_, at) => ({
    id: `V${at}`,
    name: `Vessel ${at}`,
    items: 1,
  }));
  const crossing = {
    id: "C",
    name: "Crossing",
    departs: null,
    daysExpected: null,
    daysLongest: null,
    vessels: ["Vessel 140"],
  };
  const overview: OverviewAnswer = {
    counts: {},
    currency: "EUR",
    vessels,
    crossings: [crossing],
    categories: [],
  };
  expect(vesselsToLookInto(overview)).toEqual([
    "V140",
    ...Array.from({ length: 11 }, (_, at) => `V${at}`),
  ]);
});
