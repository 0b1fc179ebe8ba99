import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import type { DueAnswer } from "../../../api/contract/stock.contract.ts";
import { numberOf, ownerOf, textOf } from "../records/record-columns.ts";

/** A vessel or a locker with what lies within it. */
export interface Place {
  readonly id: string;
  readonly name: string;
  /** From the vessel down: "Ysolvane › Engine room › Shelf A". */
  readonly path: string;
  readonly depth: number;
  readonly isVessel: boolean;
  /** Its own id and those of every place within it. */
  readonly within: ReadonlySet<string>;
}

export type LotState = DueAnswer["lots"][number]["state"] | "usable";

/** A lot as the lockers page shows it. */
export interface Lot {
  readonly record: RecordDocument;
  readonly id: string;
  readonly partId: string;
  readonly part: string;
  readonly description: string;
  readonly maker: string;
  readonly placeId: string;
  readonly pieces: number;
  /** Last day it may be used, where anything says. */
  readonly lastDay: string | undefined;
  readonly state: LotState;
  readonly words: string;
}

/** Vessels and lockers as a walk through the ship: each place before those within it, by name. */
export function placesOf(
  vessels: readonly { readonly id: string; readonly name: string }[],
  lockers: readonly RecordDocument[],
): readonly Place[] {
  const inside = new Map<string, RecordDocument[]>();
  for (const locker of lockers) {
    const outer = ownerOf(locker, "IS_WITHIN")?.id ?? "";
    inside.set(outer, [...(inside.get(outer) ?? []), locker]);
  }
  const places: Place[] = [];
  const seen = new Set<string>();
  const walk = (id: string, name: string, path: string, depth: number): ReadonlySet<string> => {
    seen.add(id);
    const at = places.length;
    const within = new Set([id]);
    places.push({ id, name, path, depth, isVessel: depth === 0, within });
    const inner = (inside.get(id) ?? [])
      .filter((locker) => !seen.has(locker.id))
      .sort((a, b) => a.name.localeCompare(b.name, "en", { numeric: true }));
    for (const locker of inner)
      for (const deeper of walk(locker.id, locker.name, `${path} › ${locker.name}`, depth + 1))
        within.add(deeper);
    return places[at]?.within ?? within;
  };
  for (const vessel of [...vessels].sort((a, b) => a.name.localeCompare(b.name, "en")))
    walk(vessel.id, vessel.name, vessel.name, 0);
  // Lockers nothing leads to stand by themselves rather than vanish.
  for (const locker of lockers)
    if (!seen.has(locker.id))
      walk(locker.id, locker.name, locker.title.replaceAll(" / ", " › "), 1);
  return places;
}

const last = "9999-99-99";

/** Lots in the order in which to use them: first expired, first out; those that keep last. */
export function lotsOf(
  records: readonly RecordDocument[],
  parts: ReadonlyMap<string, RecordDocument>,
  due: DueAnswer | undefined,
): readonly Lot[] {
  const states = new Map((due?.lots ?? []).map((lot) => [lot.lot.id, lot]));
  return records
    .map((record): Lot => {
      const part = ownerOf(record, "LOT_OF");
      const about = parts.get(part?.id ?? "");
      const found = states.get(record.id);
      const expires = textOf(record, "expires");
      return {
        record,
        id: record.id,
        partId: part?.id ?? "",
        part: part?.name ?? "",
        description:
          found?.description ?? (about === undefined ? "" : textOf(about, "description")),
        maker: found?.maker ?? (about === undefined ? "" : (ownerOf(about, "MADE_BY")?.name ?? "")),
        placeId: ownerOf(record, "STOWED_IN")?.id ?? "",
        pieces: numberOf(record, "quantity") ?? 0,
        lastDay: found?.lastDay ?? (expires === "" ? undefined : expires),
        state: found?.state ?? "usable",
        words: found?.words ?? "",
      };
    })
    .sort(
      (a, b) =>
        (a.lastDay ?? last).localeCompare(b.lastDay ?? last) ||
        a.part.localeCompare(b.part, "en", { numeric: true }),
    );
}
