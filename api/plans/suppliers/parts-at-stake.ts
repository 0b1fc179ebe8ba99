import type { SuppliersAnswer } from "../../contract/suppliers.contract.ts";
import type { PartClasses } from "../../scoring/classes/part-classes.ts";
import type { SuppliedGear } from "../../scoring/coverage/supplied-gear.ts";
import { whatPartsStop } from "../../scoring/coverage/what-a-part-stops.ts";
import type { GearPicture } from "../../scoring/snapshot/snapshot.ts";

type PartAtStake = Omit<SuppliersAnswer["unsold"][number], "soldInside">;

const tiers = ["safety", "passage", "comfort"] as const;

/** Parts one supplier alone sells, and parts nobody sells, each ranked by what they stop. */
export function partsAtStake(
  snapshot: GearPicture,
  classes: PartClasses,
  gear: SuppliedGear,
  sellers: readonly (readonly number[])[],
  vessel: number | undefined,
  refer: (supplier: number) => { id: string; name: string },
): Pick<SuppliersAnswer, "singleSource" | "unsold"> {
  const stops = whatPartsStop(snapshot, classes, vessel);
  const atStake = (row: number): PartAtStake => {
    const partClass = gear.partClasses[row] ?? -1;
    const members = classes.members[partClass] ?? [];
    const part = members[0] ?? 0;
    const stop = stops.get(partClass);
    const maker = snapshot.makers.name[snapshot.parts.maker[part] ?? -1] ?? "";
    return {
      part: {
        id: String(snapshot.parts.id[part] ?? ""),
        name: `${maker} ${snapshot.parts.partNumber[part] ?? ""}`.trim(),
      },
      description: snapshot.parts.description[part] ?? "",
      tier: tiers[stop?.tier ?? 2],
      itemsStopped: stop?.itemsStopped ?? 0,
      items: stop?.items ?? 0,
    };
  };
  const insideOf = kitsOnOffer(snapshot);
  const soldInside = (row: number): string[] => [
    ...new Set(
      (classes.members[gear.partClasses[row] ?? -1] ?? []).flatMap((part) =>
        (insideOf.get(part) ?? []).map((kit) => snapshot.parts.partNumber[kit] ?? ""),
      ),
    ),
  ];
  const rowsWith = (count: number): number[] =>
    [...sellers.keys()].filter((row) => sellers[row]?.length === count);
  return {
    singleSource: rowsWith(1)
      .map((row) => ({ ...atStake(row), supplier: refer(sellers[row]?.[0] ?? 0) }))
      .sort(byWhatTheyStop),
    unsold: rowsWith(0)
      .map((row) => ({ ...atStake(row), soldInside: soldInside(row) }))
      .sort(byWhatTheyStop),
  };
}

const byWhatTheyStop = (a: PartAtStake, b: PartAtStake): number =>
  tiers.indexOf(a.tier) - tiers.indexOf(b.tier) ||
  b.itemsStopped - a.itemsStopped ||
  b.items - a.items ||
  (a.part.name < b.part.name ? -1 : a.part.name > b.part.name ? 1 : 0);

/** part -> kit parts that hold it and that someone offers. */
function kitsOnOffer({ contains, offers }: GearPicture): ReadonlyMap<number, readonly number[]> {
  const offered = new Set(offers.target);
  const found = new Map<number, number[]>();
  contains.part.forEach((part, at) => {
    const kit = contains.kit[at] ?? -1;
    if (!offered.has(kit)) return;
    const list = found.get(part);
    if (list === undefined) found.set(part, [kit]);
    else list.push(kit);
  });
  return found;
}
