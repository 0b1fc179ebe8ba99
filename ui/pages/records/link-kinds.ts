/** A relationship a person may add to a record of some label, and what is asked for it. */
export interface LinkKind {
  readonly type: string;
  readonly direction: "out" | "in";
  /** What the other end is called. */
  readonly other: string;
  /** Properties asked for at once; the rest are added in place. */
  readonly fields: readonly string[];
}

const uses = ["quantity", "rarity"] as const;
const offers = ["supplierCode", "priceMinor", "packSize", "leadTimeDays"] as const;

const kinds: Readonly<Record<string, readonly LinkKind[]>> = {
  Part: [
    { type: "USES", direction: "in", other: "Model", fields: uses },
    { type: "OFFERS", direction: "in", other: "Supplier", fields: offers },
    { type: "INTERCHANGES_WITH", direction: "out", other: "Other part", fields: [] },
    { type: "SUPERSEDED_BY", direction: "out", other: "Newer part", fields: [] },
  ],
  Model: [{ type: "USES", direction: "out", other: "Part", fields: uses }],
  FittedItem: [{ type: "SERVES", direction: "out", other: "Function", fields: [] }],
  Supplier: [{ type: "OFFERS", direction: "out", other: "Part", fields: offers }],
  ServiceTask: [{ type: "CONSUMES", direction: "out", other: "Part", fields: ["quantity"] }],
};

export const linkKinds = (label: string): readonly LinkKind[] => kinds[label] ?? [];
