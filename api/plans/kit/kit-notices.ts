import type { SoldKit } from "../../scoring/provision/kit-sale.ts";
import type { Passage } from "../../scoring/provision/passage.ts";
import type { VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { interchangeNotices } from "../interchange-notices.ts";
import { moneyWords, plural } from "../words.ts";
import { saleNotices } from "./sale-notices.ts";

interface Notice {
  readonly code: string;
  readonly text: string;
}

/** What the reader must know about how this kit was reached. */
export function kitNotices(
  snapshot: Snapshot,
  kit: VesselKit & Partial<Pick<SoldKit, "sale">>,
  passage: Passage,
): readonly Notice[] {
  const notices: Notice[] = [...kit.demand.notices];
  const add = (code: string, text: string): void => {
    notices.push({ code, text });
  };
  const assumedPrices = kit.rows.filter(
    (row) => row.buy > 0 && kit.prices.price(row.demand.partClass).assumed,
  );
  if (!kit.prices.anyKnown && kit.rows.length > 0) {
    add(
      "price-none",
      `No price in ${kit.currency} is known, so the kit is the one with the fewest pieces. Import a price list to get its cost.`,
    );
  } else if (assumedPrices.length > 0) {
    add(
      "price-assumed",
      `${plural(assumedPrices.length, "part")} to buy ${assumedPrices.length === 1 ? "has" : "have"} no price; ${moneyWords(kit.prices.standIn, kit.currency)}, the median of the known prices, stands in${snapshot.imaginedFrom === undefined ? "" : ", or what was asked for it before the change"}.`,
    );
  }
  if (kit.prices.withoutRate.length > 0) {
    add(
      "currency-without-rate",
      `Offers in ${kit.prices.withoutRate.join(", ")} are not counted: no rate to ${kit.currency} was given.`,
    );
  }
  if (kit.sale !== undefined) notices.push(...saleNotices(kit.sale));
  notices.push(...interchangeNotices(snapshot, kit.classes));
  notices.push(...splitNotices(snapshot, kit));
  const overdue = kit.rows.filter((row) => row.notUsable > 0 && row.buy > 0);
  if (overdue.length > 0) {
    add(
      "stock-not-usable",
      `${plural(overdue.length, "part")} to buy ${overdue.length === 1 ? "is" : "are"} aboard out of date, undated or unfit, and so not counted.`,
    );
  }
  if (kit.demand.functions.length === 0) {
    add(
      "functions-none",
      "No required functions are in the graph: every part counts as needed for the passage and no gear counts as redundant.",
    );
  }
  const mixed = kit.demand.functions.filter(
    (f) => f.items.length > f.need && f.soleModel < 0 && f.tier !== 0,
  );
  if (mixed.length > 0) {
    const names = mixed.slice(0, 3).map((f) => `"${snapshot.functions.name[f.row]}"`);
    add(
      "mixed-makes",
      `${names.join(", ")}${mixed.length > 3 ? " and others" : ""} ${mixed.length === 1 ? "is" : "are"} served by several makes: none of their parts can mend another, so no parts are credited.`,
    );
  }
  const late = kit.rows.filter((row) => {
    const lead = kit.prices.price(row.demand.partClass).leadTimeDays;
    return row.buy > 0 && !Number.isNaN(lead);
  });
  const worst = late.reduce(
    (most, row) => Math.max(most, kit.prices.price(row.demand.partClass).leadTimeDays),
    0,
  );
  if (worst > 0)
    add(
      "lead-time",
      `The slowest delivery among the parts to buy takes ${worst} days from the cheapest supplier.`,
    );
  if (passage.marginDays === 0) return notices;
  add("margin", `Dates must hold ${plural(passage.marginDays, "day")} past longest-case arrival.`);
  return notices;
}

/** Parts with several successors, of which only one is counted. */
function splitNotices(snapshot: Snapshot, kit: VesselKit): Notice[] {
  const shown = new Set(kit.rows.map((row) => row.demand.partClass));
  const name = (partClass: number): string =>
    snapshot.parts.partNumber[kit.classes.members[partClass]?.[0] ?? -1] ?? "";
  return kit.supersession.split
    .filter(({ older }) => shown.has(older))
    .map(({ older, counted, left }) => ({
      code: "supersession-split",
      text: `${name(older)} has several successors; ${name(counted)} is counted in its place, ${left.map(name).join(", ")} ${left.length === 1 ? "is" : "are"} not. If one of them replaced the other, say so in the list.`,
    }));
}
