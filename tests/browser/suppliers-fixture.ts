import { suppliersAnswer } from "../../api/contract/suppliers.contract.ts";

const names = ["Nordquay Stores", "Eastwick Chandlers of the Inner Harbour", "Hollin"] as const;
const refer = (at: number) => ({ id: `Supplier:${at}`, name: names[at] ?? "" });

/** A made-up answer with every part of the page in it: an unproven bound, an unknown contact, parts nobody sells. */
export function suppliersFixture() {
  const reach = (count: number, reached: number, upperBound = reached) => ({
    status: reached === upperBound ? ("optimal" as const) : ("stopped" as const),
    suppliers: [0, 1, 2].slice(0, count).map(refer),
    reached,
    upperBound,
    gap: (upperBound - reached) / upperBound,
    withoutAnyOne: count === 1 ? 0 : 4 * count,
  });
  const stake = (at: number) => ({
    part: { id: `Part:${at}`, name: `Quillmark QM-${at}` },
    description: "Flexible impeller with its gasket",
    tier: (["safety", "passage", "comfort"] as const)[at % 3] ?? "comfort",
    itemsStopped: 9 - at,
    items: 9,
  });
  return suppliersAnswer.parse({
    scope: {},
    sentence:
      "Nordquay Stores offers every sparable part of 21 of 64 fitted items; three suppliers cover all 120 parts that anyone sells.",
    gear: { items: 64, coverable: 55, parts: 124, partsSold: 120 },
    suppliers: names.map((_, at) => ({
      supplier: refer(at),
      place: at === 2 ? "" : "Lisbon, Portugal",
      contact: at === 2 ? "" : "Counter, counter@stores.example, 555-0100",
      gearWhole: 21 - 6 * at,
      gearPartly: 40 - 5 * at,
      parts: 70 - 10 * at,
      onlySourceOf: 3,
    })),
    curve: [1, 2, 3].map((count) => ({
      count,
      gearWhole: reach(count, 18 * count, count === 3 ? 55 : 18 * count),
      gearPartly: reach(count, 20 * count),
      parts: reach(count, 40 * count),
    })),
    least: {
      status: "optimal",
      suppliers: [0, 1, 2].map(refer),
      cost: 3,
      lowerBound: 3,
      gap: 0,
      greedy: { suppliers: [0, 1, 2].map(refer), cost: 3 },
    },
    overlaps: [{ a: refer(0), b: refer(1), shared: 31, jaccard: 0.32 }],
    singleSource: [0, 1, 2].map((at) => ({ ...stake(at), supplier: refer(at) })),
    unsold: [3, 4].map((at) => ({ ...stake(at), soldInside: at === 3 ? ["QM-900"] : [] })),
    counterweight: "One supplier is one point of failure.",
    cautions: ["The maker's manual and parts list come first."],
    notices: [{ code: "contact-unknown", text: "No contact is known for Hollin." }],
  });
}
