import type { KitAnswer as KitDocument, KitLine } from "../../contract/kit.contract.ts";
import { isoOfDay } from "../../scoring/aboard/calendar.ts";
import { lockerPath } from "../../scoring/aboard/locker-path.ts";
import { lotLastDay, lotState } from "../../scoring/aboard/usable-stock.ts";
import type { DemandLine } from "../../scoring/provision/demand-line.ts";
import { type Passage, usableUntilDay } from "../../scoring/provision/passage.ts";
import { type KitRow, shortWith, type VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { chanceWords, meanWords, moneyWords, plural } from "../words.ts";

export const tierNames = ["safety", "passage", "comfort"] as const;

/** "Port primary winch" or "4 items: Port primary winch, ..." */
export function gearWords(snapshot: Snapshot, items: readonly number[]): string {
  const names = items.map((item) => snapshot.items.position[item] ?? "");
  if (names.length <= 2) return names.join(" and ");
  return `${names.slice(0, 2).join(", ")} and ${plural(names.length - 2, "more", "more")}`;
}

export const modelReference = (snapshot: Snapshot, model: number) => ({
  id: String(snapshot.models.id[model] ?? ""),
  name: [
    snapshot.makers.name[snapshot.models.maker[model] ?? -1] ?? "",
    snapshot.models.designation[model] ?? "",
  ]
    .join(" ")
    .trim(),
});

const round = (value: number, digits = 6): number => Number(value.toPrecision(digits));

function reason(snapshot: Snapshot, line: DemandLine): KitLine["reasons"][number] {
  const model = modelReference(snapshot, line.model);
  const gear = gearWords(snapshot, line.items);
  return {
    gear,
    items: line.items.length,
    model,
    quantityEach: line.quantity,
    evidence: line.evidence,
    meanDemand: round(line.mean),
    stops: line.effect === 0 && line.origin === "failure",
    words: `${gear} (${model.name}): ${line.words}; ${meanWords(line.mean)} expected`,
  };
}

/** The part row a class is shown by: the one bought, else one aboard, else the first that gear names. */
function shownPart(kit: VesselKit, row: KitRow): number {
  const priced = kit.prices.price(row.demand.partClass);
  if (priced.part >= 0) return priced.part;
  const members = kit.classes.members[row.demand.partClass] ?? [];
  return (
    members.find((part) => kit.stock.lotsOf.has(part)) ??
    row.demand.lines[0]?.part ??
    members[0] ??
    0
  );
}

/** Every part class the gear asks for, with what it buys, and why; what is to be bought first. */
export function kitLines(
  snapshot: Snapshot,
  kit: VesselKit,
  passage: Passage,
): KitDocument["lines"] {
  const until = usableUntilDay(passage);
  const lines = kit.rows.map((row): KitLine => {
    const part = shownPart(kit, row);
    const { parts, makers, suppliers } = snapshot;
    const members = kit.classes.members[row.demand.partClass] ?? [];
    const price = kit.prices.price(row.demand.partClass);
    const base = row.usable + row.demand.credit;
    const mass = members.map((p) => parts.massKg[p] ?? Number.NaN).find((v) => v > 0);
    const volume = members.map((p) => parts.volumeLitres[p] ?? Number.NaN).find((v) => v > 0);
    const last =
      row.buy > 0
        ? (row.part.logCdf[row.buy] ?? 0) - (row.part.logCdf[row.buy - 1] ?? 0)
        : undefined;
    const lots = members.flatMap((p) => kit.stock.lotsOf.get(p) ?? []);
    const stowedIn = lots.map((lot) => {
      const quantity = snapshot.lots.quantity[lot] ?? 0;
      const state = lotState(snapshot, lot, until);
      const day = lotLastDay(snapshot, lot);
      const dated = day === undefined ? "" : `, good to ${isoOfDay(day)}`;
      return `${quantity} in ${lockerPath(snapshot, lot)}${dated}${state === "usable" ? "" : ` (${state}: not counted)`}`;
    });
    const partNumber = parts.partNumber[part] ?? "";
    return {
      part: { id: String(parts.id[part] ?? ""), name: partNumber },
      maker: makers.name[parts.maker[part] ?? -1] ?? "",
      partNumber,
      description: parts.description[part] ?? "",
      alternates: members
        .filter((p) => p !== part)
        .map((p) => ({
          id: String(parts.id[p] ?? ""),
          name: `${makers.name[parts.maker[p] ?? -1] ?? ""} ${parts.partNumber[p] ?? ""}`.trim(),
        })),
      tier: tierNames[row.demand.tier],
      safety: row.demand.isSafety,
      aboard: row.usable,
      notUsable: row.notUsable,
      credit: row.demand.credit,
      carry: row.usable + row.buy,
      buy: row.buy,
      meanDemand: round(row.demand.mean),
      shortWithNone: round(shortWith(row, row.demand.credit)),
      shortWithAboard: round(shortWith(row, base)),
      shortWithKit: round(shortWith(row, base + row.buy)),
      evidence: row.demand.evidence,
      assumedShare: row.demand.mean > 0 ? round(row.demand.assumedMean / row.demand.mean, 4) : 0,
      ...(kit.prices.anyKnown
        ? {
            unitPrice: { minor: price.minor, currency: kit.currency },
            lineCost: { minor: price.minor * row.buy, currency: kit.currency },
          }
        : {}),
      priceAssumed: price.assumed,
      ...(mass === undefined ? {} : { massKg: mass }),
      ...(volume === undefined ? {} : { volumeLitres: volume }),
      ...(last === undefined || !Number.isFinite(last)
        ? {}
        : { gainPerCost: round(last / Math.max(1, row.part.unitCost)) }),
      ...(price.supplier < 0 ? {} : { supplier: suppliers.name[price.supplier] ?? "" }),
      ...(Number.isNaN(price.leadTimeDays) ? {} : { leadTimeDays: price.leadTimeDays }),
      stowedIn,
      reasons: row.demand.lines.map((line) => reason(snapshot, line)),
      words: lineWords(row, kit, base),
    };
  });
  const tierOrder = (line: KitLine): number => tierNames.indexOf(line.tier);
  return lines.sort(
    (a, b) =>
      Number(b.buy > 0) - Number(a.buy > 0) ||
      tierOrder(a) - tierOrder(b) ||
      b.shortWithAboard - a.shortWithAboard ||
      (a.part.id < b.part.id ? -1 : 1),
  );
}

function lineWords(row: KitRow, kit: VesselKit, base: number): string {
  const expected = `${meanWords(row.demand.mean)} expected to be needed`;
  const have =
    row.usable > 0 ? `${plural(row.usable, "usable piece")} aboard` : "none usable aboard";
  const credit =
    row.demand.credit > 0
      ? `, ${plural(row.demand.credit, "piece")} can come from redundant gear`
      : "";
  const now = `short in ${chanceWords(shortWith(row, base))} crossings`;
  if (row.buy === 0) return `${expected}; ${have}${credit}: ${now}.`;
  const price = kit.prices.price(row.demand.partClass);
  const cost = kit.prices.anyKnown
    ? ` for ${moneyWords(price.minor * row.buy, kit.currency)}${price.assumed ? " (price assumed)" : ""}`
    : "";
  return `${expected}; ${have}${credit}: ${now}. Buying ${row.buy}${cost} makes it ${chanceWords(shortWith(row, base + row.buy))}.`;
}
