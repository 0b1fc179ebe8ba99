import type { SuppliersAnswer } from "../../contract/suppliers.contract.ts";
import { plural } from "../words.ts";

type Facts = Pick<
  SuppliersAnswer,
  "gear" | "suppliers" | "curve" | "least" | "singleSource" | "unsold"
>;

const few = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
const countWords = (count: number): string => few[count] ?? String(count);
/** A sentence with more names than this is not read to its end; the lists name all. */
const mostNamed = 4;
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const namesOf = (list: readonly { readonly name: string }[]): string => {
  const names = list.map(({ name }) => name);
  const last = names.pop() ?? "";
  return names.length === 0 ? last : `${names.join(", ")} and ${last}`;
};

/** The answer in words: the widest single supplier, the least that cover all, what nobody sells. */
export function supplierSentence({ gear, suppliers, curve, least, unsold }: Facts): string {
  if (gear.parts === 0) {
    return "No fitted model has a parts list with anything that can be replaced at sea, so whom to buy from cannot be told. Import a parts list.";
  }
  if (gear.partsSold === 0) {
    return `None of the ${plural(gear.parts, "part")} the fitted gear can take at sea is offered by any supplier here. Import offers.`;
  }
  const best = suppliers[0];
  const one =
    best === undefined || best.gearWhole === 0
      ? `No single supplier offers every sparable part of any of the ${plural(gear.items, "fitted item")}`
      : `${best.supplier.name} offers every sparable part of ${best.gearWhole} of ${plural(gear.items, "fitted item")}`;
  const count = least.suppliers.length;
  const proof =
    least.status === "optimal" ? "" : ` (at least ${Math.ceil(least.lowerBound)} are needed)`;
  const all =
    count === 1
      ? `${least.suppliers[0]?.name ?? ""} alone sells all ${plural(gear.partsSold, "part")} that anyone sells`
      : `${countWords(count)} suppliers${proof} cover all ${plural(gear.partsSold, "part")} that anyone sells${count > mostNamed ? "" : `: ${namesOf(least.suppliers)}`}`;
  const mid = curve[2]?.gearWhole;
  const between =
    mid === undefined || mid.reached === 0 || count <= 3
      ? ""
      : ` ${capital(countWords(mid.suppliers.length))} cover ${plural(mid.reached, "item")} whole: ${namesOf(mid.suppliers)}.`;
  const none =
    unsold.length === 0
      ? ""
      : ` ${capital(plural(unsold.length, "part"))} of the gear ${unsold.length === 1 ? "is" : "are"} sold by nobody here.`;
  return `${one}; ${all}.${between}${none}`;
}

/** What speaks against buying from few. */
export function supplierCounterweight({ singleSource, curve }: Facts): string {
  const safety = singleSource.filter(({ tier }) => tier === "safety").length;
  const sole =
    singleSource.length === 0
      ? "Every part on sale has a second source."
      : `${plural(singleSource.length, "part")} ${singleSource.length === 1 ? "has" : "have"} one source only${safety === 0 ? "" : `, ${safety} of them for safety gear`}.`;
  const pair = curve[1]?.gearWhole;
  const left =
    pair === undefined || pair.suppliers.length < 2
      ? ""
      : ` Of the ${plural(pair.reached, "item")} the best two cover, ${pair.withoutAnyOne === 0 ? "none" : pair.withoutAnyOne} would still be covered if either dropped out.`;
  return `One supplier is one point of failure: a closed shop, a strike or a lost parcel takes everything bought there. ${sole}${left} An offer is a price on a list, not a piece on a shelf: ask before relying on it.`;
}
