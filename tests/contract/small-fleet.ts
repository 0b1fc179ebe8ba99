import {
  joinKey,
  keyPiece,
  mintNodeId,
  type NodeId,
  type NodeLabel,
  type Properties,
  type RelationshipType,
} from "../../graph-schema/index.ts";
import type { ChangeSet, ProposedChange } from "../../importers/change-set.ts";

export const occasion = { who: "mate", at: "2026-03-01T08:00:00Z" };
export const importOccasion = (fileName: string, at = occasion.at) => ({
  who: "mate",
  at,
  importOf: { fileName },
});

/** Collects proposals for a small graph, each returning the id it proposes. */
export class Draft {
  readonly changes: ProposedChange[] = [];

  node(label: NodeLabel, properties: Properties, ...key: readonly string[]): NodeId {
    const joined = joinKey(...key.map(keyPiece));
    const id = mintNodeId(label, joined);
    this.changes.push({ kind: "create-node", label, id, key: joined, properties });
    return id;
  }

  link(type: RelationshipType, from: NodeId, to: NodeId, properties: Properties = {}): this {
    this.changes.push({ kind: "create-link", type, from, to, properties });
    return this;
  }

  get set(): ChangeSet {
    return { changes: this.changes };
  }
}

/** Two invented vessels sharing a model and some parts; lockers nested; one service; one crossing. */
export function smallFleet() {
  const draft = new Draft();
  const named = (label: NodeLabel, name: string, more: Properties = {}) =>
    draft.node(label, { name, ...more }, name);
  const ketch = named("Vessel", "Merle");
  const tender = named("Vessel", "Grebe");
  const maker = named("Maker", "Ostrava Deck Works");
  const other = named("Maker", "Pelm Pumps");
  const winch = draft.node(
    "Model",
    { designation: "DW-40", category: "winch" },
    "Ostrava Deck Works",
    "DW-40",
  );
  const pump = draft.node("Model", { designation: "P 12", category: "bilge pump" }, "Pelm", "P 12");
  draft.link("MADE_BY", winch, maker).link("MADE_BY", pump, other);
  const hoist = draft.node(
    "RequiredFunction",
    { name: "hoist sail", tier: "comfort", need: 2 },
    "Merle",
    "hoist sail",
  );
  const bail = draft.node("RequiredFunction", { name: "pump the bilge" }, "Merle", "bail");
  draft.link("REQUIRED_ON", hoist, ketch).link("REQUIRED_ON", bail, ketch);
  const item = (vessel: NodeId, ship: string, position: string, more: Properties = {}) => {
    const id = draft.node("FittedItem", { position, ...more }, ship, position);
    draft.link("FITTED_ON", id, vessel);
    return id;
  };
  const port = item(ketch, "Merle", "Winch, port", {
    serial: "00071",
    hoursPerDay: 1.5,
    fittedOn: "2020-01-02",
    hoursRun: 120,
  });
  const unknownGear = item(ketch, "Merle", "Mystery box");
  const tenderPump = item(tender, "Grebe", "Bilge pump");
  draft.link("IS_MODEL", port, winch).link("IS_MODEL", tenderPump, pump);
  draft.link("SERVES", port, hoist).link("SERVES", port, bail);
  const part = (partNumber: string, more: Properties = {}) => {
    const id = draft.node("Part", { partNumber, ...more }, "Ostrava Deck Works", partNumber);
    draft.link("MADE_BY", id, maker);
    return id;
  };
  const pawl = part("0071-A.3", { description: "Pawl, Größe 3", massKg: 0.02 });
  const spring = part("SP 9/2", { description: "Pawl spring", isSafety: true });
  const newSpring = part("SP 9/3", { shelfLifeMonths: 24 });
  const kit = part("KIT-40", { description: "Winch service kit" });
  const grease = part("G1", { description: "Grease, tube", volumeLitres: 0.1 });
  const impeller = part("IMP-5", { description: "Impeller" });
  draft
    .link("USES", winch, pawl, {
      quantity: 4,
      failureEffect: "degrade",
      fittableAtSea: false,
      mtbfHours: 500,
      rateSource: "maker",
    })
    .link("USES", winch, spring, { quantity: 4, rate: 0.2, rateBasis: "year", rarity: "often" })
    .link("USES", pump, impeller, { quantity: 1 })
    .link("SUPERSEDED_BY", spring, newSpring, { source: "maker's bulletin 7" })
    .link("CONTAINS", kit, grease, { quantity: 2 })
    .link("INTERCHANGES_WITH", kit, pawl, {
      source: "parts list, 2nd edition",
      confidence: "likely",
    });
  const service = draft.node(
    "ServiceTask",
    { name: "Strip", intervalMonths: 12 },
    "dw-40",
    "Strip",
  );
  draft
    .link("SERVICE_OF", service, winch)
    .link("CONSUMES", service, grease, { quantity: 1 })
    .link("CONSUMES", service, spring, { quantity: 4, lossChance: 0.1 })
    .link("SERVICED", port, service, { lastDone: "2025-12-31" });
  const locker = (name: string, within: NodeId, more: Properties = {}) => {
    const id = draft.node("Locker", { name, ...more }, name);
    draft.link("IS_WITHIN", id, within);
    return id;
  };
  const forepeak = locker("Forepeak", ketch, { capacityLitres: 800 });
  const crate = locker("Crate 2", forepeak);
  const tin = locker("Tin", crate);
  const lot = (name: string, of: NodeId, place: NodeId, more: Properties) => {
    const id = draft.node("StockLot", { quantity: 1, ...more }, name);
    draft.link("LOT_OF", id, of).link("STOWED_IN", id, place);
    return id;
  };
  const tinLot = lot("a", pawl, tin, { quantity: 3, expires: "2027-05-01", condition: "new" });
  const looseLot = lot("b", impeller, tender, { quantity: 2 });
  const supplier = named("Supplier", "Baía Chandlery", { port: "Mindelo", contact: "quay 3" });
  draft.link("OFFERS", supplier, pawl, {
    supplierCode: "=BX-1",
    priceMinor: 1250,
    currency: "EUR",
    leadTimeDays: 9,
    asOf: "2026-02-01",
  });
  const crossing = named("Crossing", "Mindelo to Barbados", {
    departs: "2026-12-01",
    daysExpected: 16,
    daysLongest: 20,
  });
  draft.link("SAILED_BY", crossing, ketch);
  return {
    set: draft.set,
    ids: {
      ketch,
      tender,
      maker,
      other,
      winch,
      pump,
      hoist,
      bail,
      port,
      unknownGear,
      tenderPump,
      pawl,
      spring,
      newSpring,
      kit,
      grease,
      impeller,
      service,
      forepeak,
      crate,
      tin,
      tinLot,
      looseLot,
      supplier,
      crossing,
    },
  };
}
