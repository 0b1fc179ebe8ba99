import type { KitAnswer as KitDocument, KitLine } from "../../contract/kit.contract.ts";
import { isoOfDay } from "../../scoring/aboard/calendar.ts";
import { lockerPath } from "../../scoring/aboard/locker-path.ts";
import { lotLastDay, lotState } from "../../scoring/aboard/usable-stock.ts";
import { logAt } from "../../scoring/packs/judge-sale.ts";
import type { DemandLine } from "../../scoring/provision/demand-line.ts";
import type { SoldKit } from "../../scoring/provision/kit-sale.ts";
import { type Passage, usableUntilDay } from "../../scoring/provision/passage.ts";
import { type KitRow, shortOfRow, type VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { chanceWords, meanWords, moneyWords, plural } from "../words.ts";
import { type Bought, boughtAt, boughtForRows, leftovers } from "./bought-for.ts";
import { chainOf, interchangeOf } from "./line-substitutes.ts";

export const tierNames = ["safety", "passage", "comfort"] as const;

/** "Port primary winch" or "4 items: Port primary winch, ..." */
export function gearWords(snapshot: Snapshot, items: readonly number[]): string {
  const names = items.map((item) => snapshot.items.position[item] ?? "");
  if (names.length <= 2) return names.join(" and ");
  return `${names.slice(0, 2).join(", ")} and ${plural(names.length - 2, "more", "more")}`;
}

export const modelReference = (snapshot: Pick<Snapshot, "models" | "makers">, model: number) => ({
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
export function kitLines(snapshot: Snapshot, kit: SoldKit, passage: Passage): KitDocument["lines"] {
  const until = usableUntilDay(passage);
  const leftover = leftovers(kit);
  const boughtRows = boughtForRows(kit);
  const lines = kit.rows.map((row, at): KitLine => {
    const part = shownPart(kit, row);
    const { parts, makers, suppliers } = snapshot;
    const members = kit.classes.members[row.demand.partClass] ?? [];
    const price = kit.prices.price(row.demand.partClass);
    const bought = boughtAt(boughtRows, at);
    const from = bought.first ?? price;
    const isChained = (kit.groups[row.group]?.rows.length ?? 1) > 1;
    const short = {
      none: shortOfRow(kit, at, () => 0),
      aboard: shortOfRow(kit, at, (index) => kit.rows[index]?.usable ?? 0),
      kit: shortOfRow(kit, at, (index) => piecesWithKit(kit.rows[index])),
    };
    const mass = members.map((p) => parts.massKg[p] ?? Number.NaN).find((v) => v > 0);
    const volume = members.map((p) => parts.volumeLitres[p] ?? Number.NaN).find((v) => v > 0);
    const last =
      row.buy > 0 && !isChained
        ? logAt(row.part.logCdf, row.buy) - logAt(row.part.logCdf, row.buy - 1)
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
      fromKits: bought.fromKits,
      leftover: leftover[at] ?? 0,
      meanDemand: round(row.demand.mean),
      shortWithNone: round(short.none),
      shortWithAboard: round(short.aboard),
      shortWithKit: round(short.kit),
      evidence: row.demand.evidence,
      assumedShare: row.demand.mean > 0 ? round(row.demand.assumedMean / row.demand.mean, 4) : 0,
      ...(kit.prices.anyKnown
        ? {
            unitPrice: { minor: price.minor, currency: kit.currency },
            lineCost: { minor: bought.costMinor, currency: kit.currency },
          }
        : {}),
      priceAssumed: price.assumed,
      ...(mass === undefined ? {} : { massKg: mass }),
      ...(volume === undefined ? {} : { volumeLitres: volume }),
      ...(last === undefined || !Number.isFinite(last)
        ? {}
        : { gainPerCost: round(last / Math.max(1, row.part.unitCost)) }),
      ...(from.supplier < 0 ? {} : { supplier: suppliers.name[from.supplier] ?? "" }),
      ...(Number.isNaN(from.leadTimeDays) ? {} : { leadTimeDays: from.leadTimeDays }),
      stowedIn,
      reasons: askedBy(kit, at).map((line) => reason(snapshot, line)),
      words: lineWords(row, kit, short, bought),
      interchange: interchangeOf(snapshot, members),
      ...(isChained ? { chain: chainOf(snapshot, kit, at) } : {}),
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

/** The lines that ask for a class; where none does by itself, those of the classes it stands in for. */
function askedBy(kit: VesselKit, at: number): readonly DemandLine[] {
  const row = kit.rows[at];
  const group = kit.groups[row?.group ?? -1];
  if (row === undefined || group === undefined || row.demand.lines.length > 0)
    return row?.demand.lines ?? [];
  const served = new Set([group.rows.indexOf(at)]);
  // Older ones stand before newer ones, so one pass from the end meets every successor first.
  for (let place = group.rows.length - 1; place >= 0; place--) {
    if (served.has(group.newer[place] ?? -1)) served.add(place);
  }
  return [...served].flatMap((place) => kit.rows[group.rows[place] ?? -1]?.demand.lines ?? []);
}

const piecesWithKit = (row: KitRow | undefined): number =>
  row === undefined ? 0 : row.usable + row.buy;

function lineWords(
  row: KitRow,
  kit: VesselKit,
  short: { readonly aboard: number; readonly kit: number },
  bought: Bought,
): string {
  const isChained = (kit.groups[row.group]?.rows.length ?? 1) > 1;
  const expected =
    row.demand.lines.length === 0
      ? "nothing fitted asks for it by itself"
      : `${meanWords(row.demand.mean)} expected to be needed`;
  const have =
    row.usable > 0 ? `${plural(row.usable, "usable piece")} aboard` : "none usable aboard";
  const credit =
    row.demand.credit > 0
      ? `, ${plural(row.demand.credit, "piece")} can come from redundant gear`
      : "";
  const who = isChained
    ? "it and what it stands in for or what stands in for it run short"
    : "short";
  const now = `${who} in ${chanceWords(short.aboard)} crossings`;
  if (row.buy === 0) return `${expected}; ${have}${credit}: ${now}.`;
  const isAssumed = bought.first !== undefined && bought.first.supplier < 0;
  const cost =
    kit.prices.anyKnown && bought.costMinor > 0
      ? ` for ${moneyWords(bought.costMinor, kit.currency)}${isAssumed ? " (price assumed)" : ""}`
      : "";
  const asSold = bought.words === String(row.buy) ? "" : ` (${bought.words})`;
  return `${expected}; ${have}${credit}: ${now}. Buying ${row.buy}${asSold}${cost}${isChained ? ", with the rest of the kit," : ""} makes it ${chanceWords(short.kit)}.`;
}
