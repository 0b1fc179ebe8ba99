import type { NodeId } from "../../../graph-schema/index.ts";
import type { FindAnswer } from "../../contract/find.contract.ts";
import { dayOfIso, isoOfDay } from "../../scoring/aboard/calendar.ts";
import { type LotFacts, lastDayOfLot, stateOfLot } from "../../scoring/aboard/lot-state.ts";
import type { Surroundings } from "./surroundings.ts";

type Hit = FindAnswer["hits"][number];
type LotAboard = NonNullable<Hit["aboard"]>[number];

const conditions = ["", "new", "serviceable", "doubtful", "unserviceable"];

/** Reads all that a part is shown with: maker, lots and their places, models that take it and where those are fitted. */
export async function readRound(round: Surroundings, parts: readonly NodeId[]): Promise<void> {
  await round.follow(parts, ["MADE_BY"]);
  const lots = await round.followBack(parts, ["LOT_OF"]);
  await round.followPlaces(lots);
  const models = await round.followBack(parts, ["USES"]);
  await round.follow(models, ["MADE_BY"]);
  const items = await round.followBack(models, ["IS_MODEL"]);
  await round.follow(items, ["FITTED_ON"]);
}

const dayOf = (iso: string): number => (iso === "" ? Number.NaN : dayOfIso(iso));

function lotFacts(round: Surroundings, lot: NodeId, part: NodeId): LotFacts {
  const keeps = round.node(part)?.properties["shelfLifeMonths"];
  return {
    condition: Math.max(0, conditions.indexOf(round.text(lot, "condition"))),
    expiresDay: dayOf(round.text(lot, "expires")),
    madeDay: dayOf(round.text(lot, "made")),
    shelfLifeMonths: typeof keeps === "number" ? keeps : Number.NaN,
  };
}

function stateWords(facts: LotFacts, today: number): string {
  const lastDay = lastDayOfLot(facts);
  const date = lastDay === undefined ? "" : isoOfDay(lastDay);
  switch (stateOfLot(facts, today)) {
    case "usable":
      return date === "" ? "usable; nothing on it runs out" : `usable, in date until ${date}`;
    case "out of date":
      return `out of date since ${date}: counts as not aboard`;
    case "date unknown":
      return "perishes but carries no date: counts as out of date";
    case "not serviceable":
      return "condition doubtful or worse: counts as not aboard";
  }
}

/** A lot as a person looks for it: vessel, place, pieces, last day, and whether it counts today. */
function describeLot(round: Surroundings, lot: NodeId, part: NodeId, today: number): LotAboard {
  const facts = lotFacts(round, lot, part);
  const at = round.placeOf(round.targets(lot, "STOWED_IN")[0]);
  const vessel = round.text(at.vessel, "name") || "vessel not stated";
  const place = at.path || "no locker stated";
  const quantity = Number(round.node(lot)?.properties["quantity"] ?? 0);
  const lastDay = lastDayOfLot(facts);
  return {
    vessel,
    place,
    quantity,
    expires: lastDay === undefined ? null : isoOfDay(lastDay),
    usable: stateOfLot(facts, today) === "usable",
    words: `${quantity} aboard ${vessel}, ${place}; ${stateWords(facts, today)}`,
  };
}

function gearWords(round: Surroundings, model: NodeId): string {
  const maker = round.text(round.targets(model, "MADE_BY")[0], "name");
  const name = [maker, round.text(model, "designation")].filter((word) => word !== "").join(" ");
  const fitted = round.sources(model, "IS_MODEL").map((item) => {
    const vessel = round.text(round.targets(item, "FITTED_ON")[0], "name") || "vessel not stated";
    return `${round.text(item, "position")} (${vessel})`;
  });
  return fitted.length === 0
    ? `${name}: none fitted`
    : `${name}: ${fitted.toSorted((a, b) => (a < b ? -1 : 1)).join(", ")}`;
}

/** A part with its lots, those that count first, soonest out of date first, and the gear that takes it. After `readRound`. */
export function describePart(
  round: Surroundings,
  part: NodeId,
  matched: string,
  today: number,
): Hit {
  const maker = round.text(round.targets(part, "MADE_BY")[0], "name");
  const lots = round
    .sources(part, "LOT_OF")
    .map((lot) => describeLot(round, lot, part, today))
    .filter(({ quantity }) => quantity > 0);
  return {
    id: part,
    label: "Part",
    name: round.text(part, "partNumber"),
    detail: [maker, round.text(part, "description")].filter((word) => word !== "").join(": "),
    matched,
    aboard: lots.sort(
      (a, b) =>
        a.vessel.localeCompare(b.vessel, "en") ||
        Number(b.usable) - Number(a.usable) ||
        (a.expires ?? "9999").localeCompare(b.expires ?? "9999") ||
        (a.place < b.place ? -1 : 1),
    ),
    usedBy: round
      .sources(part, "USES")
      .map((model) => gearWords(round, model))
      .sort(),
  };
}
