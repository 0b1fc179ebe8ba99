import type { KitAnswer } from "../../contract/kit.contract.ts";
import type { DemandLine } from "../../scoring/provision/demand-line.ts";
import { givingItems, type ServedFunction } from "../../scoring/provision/function-slack.ts";
import type { KitRow, VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { chanceWords, plural } from "../words.ts";
import { gearWords, modelReference, tierNames } from "./kit-lines.ts";

type SinglePoint = KitAnswer["singlePoints"][number];
type Donor = KitAnswer["donors"][number];

const partReference = (snapshot: Snapshot, part: number) => ({
  id: String(snapshot.parts.id[part] ?? ""),
  name: snapshot.parts.partNumber[part] ?? "",
});

const functionReference = (snapshot: Snapshot, f: ServedFunction) => ({
  id: String(snapshot.functions.id[f.row] ?? ""),
  name: snapshot.functions.name[f.row] ?? "",
});

const tierName = (tier: number): SinglePoint["tier"] =>
  tierNames[tier === 0 ? 0 : tier === 2 ? 2 : 1];

/** Pr(D ≥ 1) of one line. */
const chanceOfAny = (line: DemandLine): number =>
  1 - line.terms.reduce((p, term) => p * (term.mass[0] ?? 0), Math.exp(-line.poissonMean));

const stops = (line: DemandLine): boolean => line.origin === "failure" && line.effect === 0;

/** Functions that have no item to lose: their gear all stopped by one failure, so far as the need goes. */
const withoutSlack = (kit: VesselKit): readonly ServedFunction[] =>
  kit.demand.functions.filter((f) => f.items.length > 0 && f.items.length === f.need);

/** Failures that no spare mends at sea, likeliest first, with the functions each stops if it strikes. */
export function unsparableRisks(snapshot: Snapshot, kit: VesselKit): KitAnswer["unsparable"] {
  return kit.demand.unsparable
    .map((line) => {
      const served = kit.demand.functions.filter((f) =>
        f.items.some((item) => line.items.includes(item)),
      );
      const tiers = served.map((f) => f.tier);
      const stopped = withoutSlack(kit).filter((f) => stops(line) && served.includes(f));
      return {
        part: partReference(snapshot, line.part),
        description: snapshot.parts.description[line.part] ?? "",
        gear: gearWords(snapshot, line.items),
        tier: tierName(tiers.length === 0 ? 1 : Math.min(...tiers)),
        chance: chanceOfAny(line),
        stops: line.effect === 0,
        stopsFunctions: stopped.map((f) => functionReference(snapshot, f)),
      };
    })
    .sort((a, b) => b.chance - a.chance);
}

/**
 * Pieces whose loss alone stops a function with this kit: every item that serves it is needed, the piece stops its
 * item, no spare is carried (nor of what supersedes it), and nothing gives one; or no spare can mend it at sea.
 * Likeliest first.
 */
export function singlePoints(snapshot: Snapshot, kit: VesselKit): SinglePoint[] {
  const rowOf = new Map(kit.rows.map((row) => [row.demand.partClass, row]));
  return withoutSlack(kit)
    .flatMap((f) => {
      const own = kit.demand.lines.filter(
        (line) => stops(line) && line.mean > 0 && line.items.some((i) => f.items.includes(i)),
      );
      return own.flatMap((line): SinglePoint[] => {
        const row = rowOf.get(kit.classes.classOf[line.part] ?? -1);
        if (line.fittable && row !== undefined && canBeHad(kit, row)) return [];
        const chance = chanceOfAny(line);
        const why = line.fittable ? "no spare" : "no mending at sea";
        const gear = gearWords(snapshot, line.items);
        const name = snapshot.parts.partNumber[line.part] ?? "";
        return [
          {
            function: functionReference(snapshot, f),
            tier: tierName(f.tier),
            part: partReference(snapshot, line.part),
            description: snapshot.parts.description[line.part] ?? "",
            gear,
            why,
            chance,
            words: `One ${name} lost stops "${snapshot.functions.name[f.row] ?? ""}": ${
              line.fittable
                ? "no spare is carried and nothing can give one"
                : "it can't be mended at sea"
            } (${gear}; in ${chanceWords(chance)} crossings).`,
          },
        ];
      });
    })
    .sort((a, b) => b.chance - a.chance);
}

/** Whether a piece is carried, or may be taken from redundant gear, of a row or of what supersedes it. */
function canBeHad(kit: VesselKit, row: KitRow): boolean {
  const group = kit.groups[row.group];
  const place = group?.rows.findIndex((index) => kit.rows[index] === row) ?? -1;
  for (let at = place; at >= 0; at = group?.newer[at] ?? -1) {
    const one = kit.rows[group?.rows[at] ?? -1];
    if (one !== undefined && one.usable + one.buy + one.demand.credit > 0) return true;
  }
  return false;
}

/** Items that every function they serve can spare, and what they can give to mend another. */
export function donorList(snapshot: Snapshot, kit: VesselKit): Donor[] {
  if (kit.demand.donors.size === 0) return [];
  const lent = new Map(
    kit.rows.flatMap((row) => (row.demand.credit > 0 ? [[row.demand.partClass, row]] : [])),
  );
  return givingItems(kit.demand.functions).flatMap((item): Donor[] => {
    const model = snapshot.items.model[item] ?? -1;
    const pieces = new Map<number, number>();
    for (const line of kit.demand.lines) {
      const partClass = kit.classes.classOf[line.part] ?? -1;
      if (line.model !== model || !stops(line) || !line.fittable || !lent.has(partClass)) continue;
      pieces.set(line.part, (pieces.get(line.part) ?? 0) + line.quantity);
    }
    if (pieces.size === 0) return [];
    const position = snapshot.items.position[item] ?? "";
    const parts = [...pieces].map(([part, count]) => ({
      part: partReference(snapshot, part),
      description: snapshot.parts.description[part] ?? "",
      pieces: count,
    }));
    const served = kit.demand.functions.filter((f) => f.items.includes(item));
    const named = parts
      .slice(0, 3)
      .map(
        ({ part, description, pieces: count }) =>
          `${description || part.name}${count > 1 ? ` (${count})` : ""}`,
      );
    const more = parts.length > 3 ? ` and ${plural(parts.length - 3, "more part")}` : "";
    return [
      {
        item: { id: String(snapshot.items.id[item] ?? ""), name: position },
        model: modelReference(snapshot, model),
        functions: served.map((f) => functionReference(snapshot, f)),
        parts,
        words: `${position} can give its ${named.join(", ")}${more}: ${served
          .map(
            (f) => `"${snapshot.functions.name[f.row] ?? ""}" needs ${f.need} of ${f.items.length}`,
          )
          .join("; ")}.`,
      },
    ];
  });
}
