import type { Attention, VesselReadiness } from "../../contract/readiness.contract.ts";
import { plural } from "../words.ts";

type Facts = Omit<VesselReadiness, "attention" | "sentence" | "ready">;
type Found = Omit<Attention, "count"> & { readonly count: number };

/** What needs looking at aboard one vessel, in words made of its figures: now, before leaving, to know. */
export function attentionList(facts: Facts): Attention[] {
  const { tiers, toBuy, stock, services, singleSource, evidence } = facts;
  const behind = tiers.filter(({ parts, reached }) => parts > 0 && !reached);
  const found: Found[] = [
    {
      kind: "short",
      weight: "before leaving",
      count: toBuy.pieces,
      words: `${plural(toBuy.pieces, "piece")} of ${plural(toBuy.parts, "part")} short${behind.length === 0 ? "" : `: ${behind.map(({ tier }) => tier).join(", ")} below target`}.`,
      follow: toBuy.follow,
    },
    {
      kind: "out of date",
      weight: "now",
      count: stock.outOfDate,
      words: `${plural(stock.outOfDate, "lot")} out of date: ${stock.outOfDate === 1 ? "it counts" : "they count"} as not aboard.`,
      follow: stock.follow,
    },
    {
      kind: "date unknown",
      weight: "now",
      count: stock.dateUnknown,
      words: `${plural(stock.dateUnknown, "lot")} of parts that perish without a date: counted as out of date. Read the packets.`,
      follow: stock.follow,
    },
    {
      kind: "not serviceable",
      weight: "now",
      count: stock.notServiceable,
      words: `${plural(stock.notServiceable, "lot")} in doubtful condition or worse: not counted.`,
      follow: stock.follow,
    },
    {
      kind: "service overdue",
      weight: "now",
      count: services.due,
      words: `${plural(services.due, "service")} due before departure${services.lastDoneUnknown === 0 ? "" : `, ${services.lastDoneUnknown} of them because nobody knows when ${services.lastDoneUnknown === 1 ? "it was" : "they were"} last done`}.`,
      follow: services.follow,
    },
    {
      kind: "service short of parts",
      weight: "before leaving",
      count: services.shortOfParts,
      words: `${plural(services.shortOfParts, "service")} due by arrival without all ${services.shortOfParts === 1 ? "it uses" : "they use"} up aboard.`,
      follow: services.follow,
    },
    {
      kind: "falls due",
      weight: "before leaving",
      count: stock.fallsDue,
      words: `${plural(stock.fallsDue, "lot")} will be out of date before arrival.`,
      follow: stock.follow,
    },
    {
      kind: "nobody sells",
      weight: "to know",
      count: singleSource.unsoldStopping,
      words: `${plural(singleSource.unsoldStopping, "part")} that can stop gear ${singleSource.unsoldStopping === 1 ? "is" : "are"} sold by nobody we know.`,
      follow: singleSource.follow,
    },
    {
      kind: "single source",
      weight: "to know",
      count: singleSource.stopping,
      words: `${plural(singleSource.stopping, "part")} that can stop gear ${singleSource.stopping === 1 ? "has" : "have"} one supplier only.`,
      follow: singleSource.follow,
    },
    {
      kind: "without evidence",
      weight: "to know",
      count: evidence.without,
      words: `${plural(evidence.without, "line")} of parts lists without any evidence of failing: not provided for.`,
      follow: evidence.follow,
    },
    {
      kind: "assumed",
      weight: "to know",
      count: evidence.assumed,
      words: `${plural(evidence.assumed, "part")} of ${evidence.lines} rest on an assumed rate.`,
      follow: evidence.follow,
    },
    {
      kind: "service due",
      weight: "to know",
      count: services.onPassage,
      words: `${plural(services.onPassage, "service falls", "services fall")} due on passage.`,
      follow: services.follow,
    },
    {
      kind: "cannot be mended at sea",
      weight: "to know",
      count: evidence.unsparable,
      words: `${plural(evidence.unsparable, "part")} can fail and cannot be replaced at sea: no spare helps.`,
      follow: evidence.follow,
    },
  ];
  const order = ["now", "before leaving", "to know"];
  return found
    .filter(({ count }) => count > 0)
    .map((one, at) => ({ one, at }))
    .sort((a, b) => order.indexOf(a.one.weight) - order.indexOf(b.one.weight) || a.at - b.at)
    .map(({ one }) => one);
}
