import {
  groupThousands,
  massIn,
  massUnit,
  minorDigits,
  roomIn,
  roomUnit,
  type UnitSystem,
} from "../../../graph-schema/index.ts";
import type { KitPurchase, KitSale } from "../../contract/kit-sale.contract.ts";
import type { Need } from "../../scoring/packs/solve-sale.ts";
import type { Purchase, SoldKit } from "../../scoring/provision/kit-sale.ts";
import type { VesselOffer } from "../../scoring/provision/sale-offers.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { moneyWords, plural } from "../words.ts";
import type { KitLimits } from "./kit-limits.ts";

const kindOf = ({ kind, pack }: VesselOffer): KitPurchase["kind"] => {
  if (kind === "kit") return "service kit";
  if (kind === "aboard") return "service kit aboard";
  return pack > 1 ? "pack" : "piece";
};

/** What to buy, as it is sold, dearest first; service kits aboard to be opened stand last. */
export function kitPurchases(
  snapshot: Snapshot,
  kit: SoldKit,
  limits: KitLimits,
): readonly KitPurchase[] {
  const { parts, makers, suppliers, offers } = snapshot;
  const asked = new Set(kit.rows.map((row) => row.demand.partClass));
  const reference = (part: number) => ({
    id: String(parts.id[part] ?? ""),
    name: parts.partNumber[part] ?? "",
  });
  const codeOf = ({ supplier, part }: VesselOffer): string => {
    for (let at = offers.start[supplier] ?? 0; at < (offers.start[supplier + 1] ?? 0); at++)
      if (offers.target[at] === part) return offers.supplierCode[at] ?? "";
    return "";
  };
  return kit.sale.purchases
    .map((purchase): KitPurchase => {
      const { offer, units } = purchase;
      const code = offer.supplier < 0 ? "" : codeOf(offer);
      return {
        kind: kindOf(offer),
        part: reference(offer.part),
        maker: makers.name[parts.maker[offer.part] ?? -1] ?? "",
        description: parts.description[offer.part] ?? "",
        ...(offer.supplier < 0 ? {} : { supplier: suppliers.name[offer.supplier] ?? "" }),
        ...(code === "" ? {} : { supplierCode: code }),
        ...(Number.isNaN(offer.leadTimeDays) ? {} : { leadTimeDays: offer.leadTimeDays }),
        units,
        pack: offer.pack,
        leastUnits: offer.sale.least ?? 1,
        unitPrice: { minor: priceOf(kit, offer), currency: kit.currency },
        cost: { minor: priceOf(kit, offer) * units, currency: kit.currency },
        priceAssumed: offer.kind !== "aboard" && offer.supplier < 0,
        ...(offer.isMassKnown ? { massKg: (offer.sale.uses.mass * units) / 1000 } : {}),
        ...(offer.isVolumeKnown ? { volumeLitres: (offer.sale.uses.volume * units) / 1000 } : {}),
        contents: offer.inside.map(({ part, pieces }) => ({
          part: reference(part),
          description: parts.description[part] ?? "",
          pieces: pieces * units,
          asked: asked.has(kit.classes.classOf[part] ?? -1),
        })),
        lockers: lockersOf(purchase, limits.lockerNames),
        words: purchaseWords(snapshot, kit, purchase, asked),
      };
    })
    .sort(
      (a, b) =>
        Number(a.kind === "service kit aboard") - Number(b.kind === "service kit aboard") ||
        b.cost.minor - a.cost.minor ||
        (a.part.id < b.part.id ? -1 : 1),
    );
}

/** Nothing has a price where none at all is known: the stand-in then only counts pieces. */
const priceOf = (kit: SoldKit, offer: VesselOffer): number =>
  kit.prices.anyKnown ? offer.priceMinor : 0;

function lockersOf(
  { lockers }: Purchase,
  names: readonly string[],
): { readonly locker: string; readonly units: number }[] {
  const counts = new Map<number, number>();
  for (const locker of lockers) counts.set(locker, (counts.get(locker) ?? 0) + 1);
  return [...counts].map(([locker, units]) => ({ locker: names[locker] ?? "", units }));
}

function purchaseWords(
  snapshot: Snapshot,
  kit: SoldKit,
  { offer, units }: Purchase,
  asked: ReadonlySet<number>,
): string {
  const name = `${snapshot.parts.partNumber[offer.part] ?? ""} ${snapshot.parts.description[offer.part] ?? ""}`;
  const wanted = offer.inside
    .filter(({ part }) => asked.has(kit.classes.classOf[part] ?? -1))
    .reduce((sum, { pieces }) => sum + pieces * units, 0);
  const other = offer.inside.reduce((sum, { pieces }) => sum + pieces * units, 0) - wanted;
  const unasked = other > 0 ? `, and ${plural(other, "piece")} nothing asks for` : "";
  if (offer.kind === "aboard")
    return `Open ${plural(units, "service kit")} aboard, ${name.trim()}: ${plural(wanted, "piece")} that are asked for${unasked}.`;
  const from =
    offer.supplier < 0
      ? "at an assumed price"
      : `from ${snapshot.suppliers.name[offer.supplier] ?? ""}`;
  const least = offer.sale.least ?? 1;
  const order = least > 1 ? ` (least order ${least})` : "";
  const what =
    offer.kind === "kit"
      ? plural(units * offer.pack, "service kit")
      : offer.pack > 1
        ? `${plural(units, "pack")} of ${offer.pack}`
        : plural(units, "piece");
  const cost = kit.prices.anyKnown
    ? ` for ${moneyWords(offer.priceMinor * units, kit.currency)}`
    : "";
  const gives = offer.kind === "kit" ? `: ${plural(wanted, "piece")} asked for${unasked}` : "";
  return `${what} ${name.trim()} ${from}${order}${cost}${gives}.`;
}

const scale = { cost: 1, mass: 1000, volume: 1000 } as const;
const names = { cost: "money", mass: "mass", volume: "volume" } as const;

/** How the kit was found and what limits it. */
export function kitSaleDocument(
  snapshot: Snapshot,
  kit: SoldKit,
  limits: KitLimits,
  units: UnitSystem,
): KitSale {
  const { sale, answer, currency } = kit;
  const { outcome, uses } = sale;
  const methods = {
    steps: "single pieces",
    packs: "packs and service kits",
    programme: "mixed-integer programme",
  } as const;
  const unit = (what: keyof typeof names): string =>
    what === "cost" ? currency : what === "mass" ? "kg" : "litre";
  const shown = (what: keyof typeof names, value: number): number =>
    what === "cost" ? value / 10 ** minorDigits(currency) : value / scale[what];
  const unknown = (of: "isMassKnown" | "isVolumeKnown", locker?: number): number =>
    sale.purchases.reduce((sum, { offer, units, lockers }) => {
      if (offer[of] || offer.kind === "aboard") return sum;
      const count =
        locker === undefined ? units : lockers.filter((place) => place === locker).length;
      return sum + count * offer.sale.uses.pieces;
    }, 0);
  const caps: KitSale["caps"] = [];
  for (const what of ["cost", "mass", "volume"] as const) {
    const allowed = limits.caps[what];
    if (allowed === undefined) continue;
    caps.push({
      what: names[what],
      unit: unit(what),
      allowed: shown(what, allowed),
      used: shown(what, uses[what]),
      unknownPieces:
        what === "cost" ? 0 : unknown(what === "mass" ? "isMassKnown" : "isVolumeKnown"),
    });
  }
  (limits.caps.lockers ?? []).forEach((room, l) => {
    for (const what of ["mass", "volume"] as const) {
      const allowed = room[what];
      if (allowed === undefined) continue;
      const used = sale.purchases.reduce(
        (sum, { offer, lockers }) =>
          sum + lockers.filter((place) => place === l).length * offer.sale.uses[what],
        0,
      );
      caps.push({
        what: "locker",
        locker: limits.lockerNames[l] ?? "",
        unit: unit(what),
        allowed: shown(what, allowed),
        used: shown(what, used),
        unknownPieces: unknown(what === "mass" ? "isMassKnown" : "isVolumeKnown", l),
      });
    }
  });
  return {
    method: methods[sale.method],
    aim: outcome?.aim ?? "least",
    value: outcome?.value ?? answer.cost,
    bound: outcome?.bound ?? answer.lowerBound,
    gap: outcome === undefined ? answer.gap : Math.abs(outcome.value - outcome.bound),
    repaired: sale.repaired,
    caps,
    shortfalls: (outcome?.needs ?? []).map((need) => shortfallOf(snapshot, kit, need, units)),
  };
}

function shortfallOf(
  snapshot: Snapshot,
  kit: SoldKit,
  { resource, allowed, needed, units: bought }: Need,
  units: UnitSystem,
): KitSale["shortfalls"][number] {
  const shown = (value: number): number =>
    resource === "cost" ? value / 10 ** minorDigits(kit.currency) : value / 1000;
  const words = (value: number): string =>
    resource === "cost"
      ? moneyWords(value, kit.currency)
      : resource === "mass"
        ? `${groupThousands(String(Number(massIn(value / 1000, units).toFixed(3))))} ${massUnit(units)}`
        : `${groupThousands(String(Number(roomIn(value / 1000, units).toFixed(3))))} ${roomUnit(units)}`;
  const takers = kit.sale.offers
    .map((offer, u) => ({ offer, uses: offer.sale.uses[resource] * (bought[u] ?? 0) }))
    .filter(({ uses }) => uses > 0)
    .sort((a, b) => b.uses - a.uses)
    .slice(0, 5);
  return {
    what: names[resource],
    unit: resource === "cost" ? kit.currency : resource === "mass" ? "kg" : "litre",
    allowed: shown(allowed),
    needed: shown(needed),
    short: shown(needed - allowed),
    inTheWay: takers.map(({ offer, uses }) => ({
      part: {
        id: String(snapshot.parts.id[offer.part] ?? ""),
        name: snapshot.parts.partNumber[offer.part] ?? "",
      },
      words: `${snapshot.parts.partNumber[offer.part] ?? ""} ${snapshot.parts.description[offer.part] ?? ""}: ${words(uses)}`,
    })),
    words: `The safety tier alone needs ${words(needed)} of ${names[resource]}; the cap allows ${words(allowed)}, which is ${words(needed - allowed)} too little.`,
  };
}
