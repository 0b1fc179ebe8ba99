import type { UnitSystem } from "../../../graph-schema/index.ts";
import type { OrderAnswer } from "../../contract/order.contract.ts";
import { isoOfDay } from "../../scoring/aboard/calendar.ts";
import type { LeastOrder } from "../../scoring/order/least-order.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { massWords, moneyWords, plural } from "../words.ts";
import type { BoundOrder } from "./bind-order.ts";

type Sheet = OrderAnswer["sheets"][number];
type Line = Sheet["lines"][number];

/** A sheet per supplier that is dealt with, the largest bill first. */
export function orderSheets(
  snapshot: Snapshot,
  bound: BoundOrder,
  order: LeastOrder,
  currency: string,
  orderedDay: number,
  units: UnitSystem,
): Sheet[] {
  const money = (minor: number) => ({ minor, currency });
  const left = [...bound.problem.needs];
  const sheets = order.bills.map(({ supplier, goodsMinor, dutyMinor, deliveryMinor }): Sheet => {
    const lines = [...order.packs.keys()]
      .filter((at) => (order.packs[at] ?? 0) > 0 && bound.problem.offers[at]?.supplier === supplier)
      .map((at) => lineOf(at));
    const days = lines.map((line) => line.leadTimeDays);
    const last = days.includes(undefined) ? undefined : Math.max(...days.map((day) => day ?? 0));
    const { suppliers } = snapshot;
    const contact = suppliers.contact[supplier] ?? "";
    return {
      supplier: { id: String(suppliers.id[supplier] ?? ""), name: suppliers.name[supplier] ?? "" },
      contact,
      place: [suppliers.port[supplier] ?? "", suppliers.country[supplier] ?? ""]
        .filter((text) => text !== "")
        .join(", "),
      lines,
      goods: money(goodsMinor),
      duty: money(dutyMinor),
      delivery: money(deliveryMinor),
      total: money(goodsMinor + dutyMinor + deliveryMinor),
      ...(last === undefined ? {} : { arrives: isoOfDay(orderedDay + Math.ceil(last)) }),
      words: [
        plural(lines.length, "line"),
        deliveryMinor > 0
          ? `delivery ${moneyWords(deliveryMinor, currency)}`
          : "no delivery charge",
        ...(contact === "" ? ["no contact line is known: find one before ordering"] : []),
        ...(last === undefined ? ["a lead time is not known: ask"] : []),
      ].join("; "),
    };
  });
  return sheets.sort((a, b) => b.total.minor - a.total.minor);

  function lineOf(at: number): Line {
    const row = bound.offerRow[at] ?? -1;
    const part = snapshot.offers.target[row] ?? -1;
    const packs = order.packs[at] ?? 0;
    const packSize = bound.packSize[at] ?? 1;
    const offer = bound.problem.offers[at];
    let spare = 0;
    for (const { need, pieces } of offer?.brings ?? []) {
      const brought = packs * pieces;
      const wanted = Math.min(brought, Math.max(0, left[need] ?? 0));
      left[need] = (left[need] ?? 0) - brought;
      spare += brought - wanted;
    }
    const lead = snapshot.offers.leadTimeDays[row] ?? Number.NaN;
    const mass = snapshot.parts.massKg[part] ?? Number.NaN;
    const description = snapshot.parts.description[part] ?? "";
    const partNumber = snapshot.parts.partNumber[part] ?? "";
    const maker = snapshot.makers.name[snapshot.parts.maker[part] ?? -1] ?? "";
    const pieces = packs * packSize;
    const original = {
      minor: snapshot.offers.priceMinor[row] ?? 0,
      currency: snapshot.offers.currency[row] ?? currency,
    };
    const worth = moneyWords(original.minor * packs, original.currency);
    const weight = Number.isNaN(mass) ? "" : `, ${massWords(mass * pieces, units)}`;
    return {
      part: { id: String(snapshot.parts.id[part] ?? ""), name: partNumber },
      maker,
      partNumber,
      supplierCode: snapshot.offers.supplierCode[row] ?? "",
      description,
      packs,
      packSize,
      pieces,
      spare,
      packPrice: original,
      goods: money(packs * (offer?.priceMinor ?? 0)),
      duty: money(packs * (offer?.dutyMinor ?? 0)),
      ...(Number.isNaN(lead)
        ? {}
        : { leadTimeDays: lead, arrives: isoOfDay(orderedDay + Math.ceil(lead)) }),
      parcel: `${plural(pieces, "piece", "pieces")} ${description === "" ? "spare part" : description}, part no. ${partNumber}${maker === "" ? "" : ` (${maker})`}, ship's spares, worth ${worth}${weight}`,
    };
  }
}
