import type { KitLine } from "../../contract/kit.contract.ts";
import type { VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";

const confidences = ["not stated", "confirmed", "likely"] as const;

const partReference = (snapshot: Snapshot, part: number) => ({
  id: String(snapshot.parts.id[part] ?? ""),
  name: `${snapshot.makers.name[snapshot.parts.maker[part] ?? -1] ?? ""} ${snapshot.parts.partNumber[part] ?? ""}`.trim(),
});

/** The statements of interchange between members of one class. */
export function interchangeOf(
  snapshot: Snapshot,
  members: readonly number[],
): KitLine["interchange"] {
  if (members.length < 2) return [];
  const { a, b, confidence, source } = snapshot.interchange;
  const within = new Set(members);
  const found: KitLine["interchange"] = [];
  for (let pair = 0; pair < a.length; pair++) {
    const [one, other] = [a[pair] ?? -1, b[pair] ?? -1];
    const sure = confidences[confidence[pair] ?? 0];
    if (!within.has(one) || !within.has(other) || sure === undefined) continue;
    found.push({
      one: partReference(snapshot, one),
      other: partReference(snapshot, other),
      confidence: sure,
      source: source[pair] ?? "",
    });
  }
  return found;
}

/** Where a row of the kit stands in its supersession tree, in words. */
export function chainOf(
  snapshot: Snapshot,
  kit: VesselKit,
  row: number,
): NonNullable<KitLine["chain"]> {
  const group = kit.groups[kit.rows[row]?.group ?? -1];
  const place = group?.rows.indexOf(row) ?? -1;
  const newerOf = (at: number): number => group?.newer[at] ?? -1;
  const isNewer = (one: number, of: number): boolean => {
    for (let at = newerOf(of); at >= 0; at = newerOf(at)) if (at === one) return true;
    return false;
  };
  const newer: number[] = [];
  for (let at = newerOf(place); at >= 0; at = newerOf(at)) newer.push(at);
  const older = (group?.rows ?? []).map((_, at) => at).filter((at) => isNewer(place, at));
  const classAt = (at: number): number => kit.rows[group?.rows[at] ?? -1]?.demand.partClass ?? -1;
  const refer = (at: number) =>
    partReference(snapshot, kit.classes.members[classAt(at)]?.[0] ?? -1);
  const names = (list: readonly number[]): string => list.map((at) => refer(at).name).join(", ");
  const steps = [
    ...(newer.length > 0
      ? [`superseded by ${names(newer)}, which may be fitted in its place`]
      : []),
    ...(older.length > 0 ? [`may be fitted in place of ${names(older)}`] : []),
  ];
  return {
    newer: newer.map(refer),
    older: older.map(refer),
    source: sourcesOf(snapshot, kit, classAt(place)),
    words: `${steps.join("; ")}. Their chance of running short is one figure, since they share pieces.`,
  };
}

/** Who says that a class is superseded, or supersedes. */
function sourcesOf(snapshot: Snapshot, kit: VesselKit, partClass: number): string {
  const { older, newer, source } = snapshot.supersession;
  const said = source.filter(
    (text, link) =>
      text !== "" &&
      [older[link], newer[link]].some((part) => kit.classes.classOf[part ?? -1] === partClass),
  );
  return [...new Set(said)].join("; ");
}
