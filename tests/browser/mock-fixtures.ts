import { commonalityAnswer } from "../../api/contract/commonality.contract.ts";
import type { OverviewAnswer } from "../../api/contract/find.contract.ts";
import type { ImportAnswer } from "../../api/contract/import.contract.ts";
import { type KitAnswer, kitAnswer } from "../../api/contract/kit.contract.ts";

/**
 * Documents for looking at the screen without the program behind it: shaped by the contract and
 * checked against it. The figures are made up and prove nothing; no test takes them for truth.
 */

const makers = ["Brasswick", "Tholepin", "Marrowgate", "Quarl & Daughter", "Ebbing"] as const;
const gear = [
  ["winch", ["B 30", "B 40", "B 44 ST", "Capstan 12"]],
  ["bilge pump", ["Lift 900", "Lift 1500", "Hand 26"]],
  ["diesel", ["D4-50", "D4-75"]],
  ["autopilot drive", ["Ram 1", "Ram 2"]],
  ["watermaker", ["W 60"]],
  ["heads", ["Basin 4", "Basin 6"]],
  ["steering", ["Quadrant 300"]],
] as const;

/** A small seeded generator (mulberry32), so that every run draws the same picture. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
const pick = <T>(list: readonly T[], random: number): T =>
  list[Math.floor(random * list.length)] as T;

const vessels = [
  { id: "Vessel:1", name: "Grey Wagtail", items: 52 },
  { id: "Vessel:2", name: "Stormcock", items: 44 },
  { id: "Vessel:3", name: "Tystie", items: 26 },
];
const words = [
  "impeller",
  "shaft seal",
  "pawl spring",
  "diaphragm",
  "brush set",
  "O-ring",
  "bearing",
  "valve",
  "anode",
  "fuse",
  "filter",
  "hose clip",
] as const;

export const overviewFixture: OverviewAnswer = {
  counts: {
    Vessel: 3,
    FittedItem: 122,
    Model: 15,
    Part: 160,
    Supplier: 12,
    Maker: 5,
    StockLot: 80,
  },
  vessels,
  crossings: [
    {
      id: "Crossing:1",
      name: "Mindelo to Barbados",
      departs: "2027-01-12",
      daysExpected: 16,
      daysLongest: 20,
      vessels: ["Vessel:1", "Vessel:2"],
    },
  ],
  categories: gear.map(([category, names]) => ({
    category,
    models: names.length,
    items: names.length * 7,
  })),
};

export function commonalityFixture() {
  const random = seeded(7);
  const models = gear.flatMap(([category, names]) =>
    names.map((name, i) => ({
      id: `Model:${category}-${i}`,
      name,
      category,
      maker: pick(makers, random()),
      items: 1 + Math.floor(random() * 9),
      parts: 0,
    })),
  );
  const cells: [number, number, number][] = [];
  const parts: { id: string; name: string; description: string; maker: string; models: number }[] =
    [];
  const add = (rows: readonly number[]) => {
    const column = parts.length;
    parts.push({
      id: `Part:${column}`,
      name: `${String(1000 + column * 37).padStart(6, "0")}-${pick(["A", "B", "K"], random())}`,
      description: pick(words, random()),
      maker: pick(makers, random()),
      models: rows.length,
    });
    for (const row of rows)
      cells.push([row, column, random() > 0.8 ? 2 + Math.floor(random() * 10) : 1]);
  };
  let first = 0;
  for (const [, names] of gear) {
    const rows = names.map((_, i) => first + i);
    if (names.length > 1)
      for (let n = 0; n < 12; n++)
        add(
          n < 6
            ? rows
            : rows
                .filter(() => random() > 0.35)
                .concat(first)
                .filter((r, i, all) => all.indexOf(r) === i),
        );
    for (const row of rows) for (let n = 0; n < 3 + random() * 9; n++) add([row]);
    first += names.length;
  }
  for (let n = 0; n < 6; n++) add([0, 5, 8, 11].slice(0, 2 + Math.floor(random() * 3)));
  for (const [row] of cells) {
    const model = models[row];
    if (model !== undefined) model.parts += 1;
  }
  const indices = {
    models: models.length,
    items: 122,
    distinctParts: parts.length,
    lines: cells.length,
    usedByOneModelOnly: parts.filter((p) => p.models === 1).length,
    degreeOfCommonality: 1.63,
    totalConstantCommonality: 0.39,
    componentCommonality: 0.12,
    weightedCommonality: 1.81,
    distinctKits: 13,
    maximalKits: 9,
  };
  const ref = (i: number) => ({ id: models[i]?.id ?? "", name: models[i]?.name ?? "" });
  return commonalityAnswer.parse({
    scope: {},
    sentence: `15 models take ${parts.length} parts between them, each part serving 1.63 models; 13 kits of spares cover all gear, 9 if a larger kit may stand in for a smaller.`,
    whole: indices,
    categories: gear.map(([category, names]) => ({
      ...indices,
      category,
      models: names.length,
      weightedCommonality: null,
    })),
    vessels: vessels.map((vessel) => ({
      ...indices,
      vessel: { id: vessel.id, name: vessel.name },
    })),
    kits: [
      { models: [ref(0), ref(1), ref(2)], items: 18, parts: 14, maximal: true, containedIn: [] },
      { models: [ref(3)], items: 3, parts: 6, maximal: false, containedIn: [0] },
      { models: [ref(4), ref(5)], items: 9, parts: 11, maximal: true, containedIn: [] },
    ],
    likeness: [{ a: ref(0), b: ref(1), shared: 9, jaccard: 0.61 }],
    opportunities: [
      {
        category: "bilge pump",
        replace: ref(6),
        by: ref(5),
        items: 2,
        partsVanishing: 9,
        partsAdded: 0,
        suppliersVanishing: 1,
        kitsVanishing: 1,
        stockValueFreed: { minor: 18450, currency: "EUR" },
        words: "Two Hand 26 replaced by Lift 1500: nine parts and one supplier less, none added.",
      },
    ],
    matrix: { models, parts, cells },
    notices: [
      { code: "no-prices", text: "41 parts have no price; the index by money leaves them out." },
    ],
  });
}

const cautions = [
  "This is not a statement of compliance: flag state, class, rally rules and insurer decide.",
  "The maker's manual and parts list come first.",
  "Safety gear is never thinned out through commonality; expired counts as not aboard, an unknown date as expired.",
  "Gas, standing rigging, liferafts, EPIRBs, hydrostatic releases, lifejackets, extinguishers, injection and steering hydraulics belong to licensed or accredited people.",
  "A spare is not redundancy: time, tools and skill at sea count.",
  "The figure is the chance of not running short under the stated assumptions, never more.",
];

export function kitFixture(targets: KitAnswer["tiers"][number]["target"][] = [0.99, 0.95, 0.8]) {
  const random = seeded(11);
  const tiers = ["safety", "passage", "comfort"] as const;
  const lines = Array.from({ length: 34 }, (_, i) => {
    const tier = tiers[i < 8 ? 0 : i < 26 ? 1 : 2] ?? "comfort";
    const carry = 1 + Math.floor(random() * 4);
    const aboard = Math.floor(random() * (carry + 1));
    const price = 350 + Math.floor(random() * 18000);
    const part = `${String(2000 + i * 91).padStart(6, "0")}-${pick(["A", "B", "K"], random())}`;
    const evidence = pick(
      ["measured", "own history", "assumed", "assumed", "scheduled"] as const,
      random(),
    );
    return {
      part: { id: `Part:${i}`, name: part },
      maker: pick(makers, random()),
      partNumber: part,
      description: pick(words, random()),
      alternates: i % 7 === 0 ? [{ id: "Part:x", name: "0077-21K" }] : [],
      tier,
      safety: tier === "safety",
      aboard,
      notUsable: i % 9 === 0 ? 2 : 0,
      credit: i % 5 === 0 ? 1 : 0,
      carry,
      buy: carry - aboard,
      meanDemand: random() * 1.4,
      shortWithNone: 0.02 + random() * 0.5,
      shortWithAboard: 0.01 + random() * 0.1,
      shortWithKit: 0.0002 + random() * 0.008,
      evidence,
      assumedShare: evidence === "assumed" ? 1 : 0,
      unitPrice: { minor: price, currency: "EUR" },
      priceAssumed: i % 6 === 0,
      lineCost: { minor: price * (carry - aboard), currency: "EUR" },
      massKg: random() * 2,
      supplier: pick(["Lantern Quay Stores", "Fathom & Co.", "Pontoon Nine"], random()),
      leadTimeDays: 3 + Math.floor(random() * 40),
      stowedIn: aboard > 0 ? ["port quarter berth, box 2"] : [],
      reasons: [
        {
          gear: "bilge pump, forward and aft",
          items: 2,
          model: { id: "Model:1", name: "Lift 900" },
          quantityEach: 1,
          evidence,
          meanDemand: 0.4,
          stops: i % 4 !== 0,
          words: "Two run 3 hours a day for 20 days; the class often fails about once a year.",
        },
      ],
      words: `Carry ${carry}: two pumps take one each, and with ${aboard} aboard one crossing in fourteen would run short.`,
    };
  });
  const curve = (from: number, step: number, count: number) =>
    Array.from({ length: count }, (_, i) => ({
      cost: Math.round(i * step * (1 + i / 12)),
      sufficiency: 1 - (1 - from) * 0.72 ** i,
      pieces: i + 2,
    }));
  const curves = {
    safety: curve(0.8, 2600, 20),
    passage: curve(0.4, 5200, 22),
    comfort: curve(0.5, 1900, 14),
  };
  return kitAnswer.parse({
    vessel: { id: "Vessel:1", name: "Grey Wagtail" },
    crossing: {
      name: "Mindelo to Barbados",
      id: "Crossing:1",
      departs: "2027-01-12",
      daysExpected: 16,
      daysLongest: 20,
      usableUntil: "2027-02-01",
    },
    sentence: "41 pieces, 1 860 EUR and 23 kg carry the crossing at 0.97; 9 are still to buy.",
    status: "optimal",
    objective: "cost",
    currency: "EUR",
    total: {
      cost: { minor: 186043, currency: "EUR" },
      lowerBound: 186043,
      gap: 0,
      massKg: 23.2,
      massUnknownPieces: 4,
      volumeLitres: 31,
      volumeUnknownPieces: 12,
      buyPieces: 9,
      carryPieces: 41,
      distinctParts: 34,
      priceAssumedPieces: 2,
    },
    tiers: tiers.map((tier, i) => {
      const target = targets[i] ?? 0.95;
      const point = curves[tier].find((p) => p.sufficiency >= target) ?? curves[tier][0];
      return {
        tier,
        parts: [8, 18, 8][i],
        target,
        withNone: 0.21 + i * 0.1,
        withAboard: 0.62 + i * 0.04,
        withKit: point?.sufficiency,
        reachable: 0.99999,
        cost: point?.cost,
        assumedShare: 0.31,
      };
    }),
    lines,
    functions: [
      {
        function: { id: "RequiredFunction:1", name: "pump the bilge" },
        tier: "safety",
        need: 1,
        fitted: 3,
        sameModel: false,
        withAboard: 0.9931,
        withKit: 0.99972,
        method: "convolution of mixed models",
        words: "One of three pumps must work; the kit lifts the chance from 0.993 to 0.9997.",
      },
      {
        function: { id: "RequiredFunction:2", name: "steer by autopilot" },
        tier: "passage",
        need: 1,
        fitted: 2,
        sameModel: true,
        withAboard: 0.91,
        withKit: 0.972,
        method: "robbing",
        words: "One of two drives must work, and either may be robbed for the other.",
      },
    ],
    unsparable: [
      {
        part: { id: "Part:u", name: "D4-75-900" },
        description: "crankshaft",
        gear: "main engine",
        tier: "passage",
        chance: 0.0012,
        stops: true,
      },
    ],
    withoutEvidence: [
      { part: { id: "Part:n", name: "004711-K" }, description: "cover gasket", gear: "watermaker" },
      { part: { id: "Part:m", name: "004712-K" }, description: "dip switch", gear: "watermaker" },
    ],
    frontier: curves,
    notices: [{ code: "tier-unstated", text: "12 functions state no tier and count as passage." }],
    cautions,
  });
}

export function importFixture(
  name: string,
  isCommitted: boolean,
  mapping: Readonly<Record<string, string | null>>,
): ImportAnswer {
  const column = (
    index: number,
    header: string,
    property: string | null,
    confidence: number,
    sample: string[],
    meaning?: string,
  ) => {
    const hand = mapping[header];
    return {
      column: index,
      header,
      property: hand === undefined ? property : hand,
      confidence: hand === undefined ? confidence : 1,
      ...(meaning === undefined ? {} : { meaning }),
      sample,
      byHand: hand !== undefined,
    };
  };
  return {
    file: {
      name,
      bytes: 2048,
      sha256: "0".repeat(64),
      encoding: "Windows-1252",
      delimiter: "semicolon",
      titleLines: 2,
    },
    listKind: "flat list",
    listKinds: [
      { kind: "flat list", meaning: "Each row is gear, a part it takes, and who sells it" },
      { kind: "parts list", meaning: "Each row is a part" },
    ],
    columns: [
      column(0, "Boot", "Vessel.name", 1, ["Grey Wagtail"], "The vessel's name"),
      column(
        1,
        "Gerät",
        "FittedItem.position",
        0.92,
        ["Lenzpumpe vorn", "Lenzpumpe achtern"],
        "Where it is fitted and what as; unique aboard one vessel",
      ),
      column(
        2,
        "Teilenr.",
        "Part.partNumber",
        0.97,
        ["004711-K", "004712-K"],
        "Maker's number, kept to the letter",
      ),
      column(3, "Stk", "USES.quantity", 0.66, ["1", "2"], "Pieces in one item"),
      column(4, "Bemerkung", null, 0, ["siehe Ordner 3"]),
    ],
    rows: { read: 120, accepted: 112, rejected: 3, skipped: 5 },
    records: [
      { label: "Part", created: 84, changed: 3, unchanged: 25, conflict: 1 },
      { label: "Model", created: 4, changed: 0, unchanged: 8, conflict: 0 },
    ],
    changes: [
      { subject: "Part 004711-K impeller", kind: "new" },
      { subject: "Part 004712-K, kg", kind: "changed", before: "0.2", after: "0.25" },
    ],
    changesTotal: 91,
    faults: [
      {
        line: 14,
        column: "Teilenr.",
        rule: "A part number may not be a number in exponent form: a spreadsheet has mangled it",
        value: "1.23E+11",
        remedy: "Format the column as text in the spreadsheet and type the number again",
        severity: "rejected",
      },
      {
        line: 31,
        column: "Stk",
        rule: "A quantity is a whole number of 1 or more",
        value: "-2",
        remedy: "Correct the sign or leave the row out",
        severity: "rejected",
      },
      {
        line: 44,
        column: "Ablauf",
        rule: "A date must exist",
        value: "31.02.2027",
        remedy: "Write the day as on the packet",
        severity: "noticed",
      },
    ],
    faultsTotal: 3,
    rejectedCsv: "problem;Teilenr.\nmangled;1.23E+11\n",
    sentence: isCommitted
      ? `${name} is taken in: 112 of 120 rows, 88 records new, 3 changed.`
      : `${name} would add 88 records and change 3; 3 of 120 rows are rejected, 5 skipped.`,
    notices: [],
    committed: isCommitted,
    ...(isCommitted ? { import: { id: "Import:9", name } } : {}),
  };
}
