import type { KitAnswer } from "../../contract/kit.contract.ts";
import type { ServedFunction } from "../../scoring/provision/function-slack.ts";
import { groupLogSufficiency } from "../../scoring/provision/provision-groups.ts";
import type { KitRow, VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { atMost } from "../../scoring/sufficiency/at-most.ts";
import { type ModelGroup, mixedModelSurvival } from "../../scoring/sufficiency/mixed-models.ts";
import { noRobbingSurvival } from "../../scoring/sufficiency/no-robbing.ts";
import { chanceWords } from "../words.ts";
import { tierNames } from "./kit-lines.ts";

type Survival = KitAnswer["functions"][number];
type Method = Survival["method"];

/** How likely each required function is to last the crossing, so far as spares decide it. */
export function functionSurvivals(
  snapshot: Snapshot,
  kit: VesselKit,
  robbing: boolean,
): Survival[] {
  return kit.demand.functions.map((f) => {
    const all = stoppingGroups(snapshot, kit, f);
    const isTree = (row: KitRow): boolean => (kit.groups[row.group]?.rows.length ?? 1) > 1;
    const groups = all.map(({ fitted, rows }) => ({
      fitted,
      rows: rows.filter(({ row }) => !isTree(row)),
    }));
    const trees = new Set(
      all.flatMap(({ rows }) => rows.flatMap(({ row }) => (isTree(row) ? [row.group] : []))),
    );
    /** Chance that every supersession tree the function draws on is enough by itself: a floor, no gear lends to it. */
    const treesHold = (spares: (row: KitRow) => number): number =>
      [...trees].reduce((chance, at) => {
        const group = kit.groups[at];
        if (group === undefined) return chance;
        const log = groupLogSufficiency(group, kit.rows, (index) => {
          const row = kit.rows[index];
          return row === undefined ? 0 : spares(row) - row.demand.credit;
        });
        return chance * Math.exp(log);
      }, 1);
    const aboard = (row: KitRow): number => row.usable;
    const carried = (row: KitRow): number => row.usable + row.buy;
    const [restAboard, method] = survival(groups, f, robbing, aboard);
    const [restWithKit] = survival(groups, f, robbing, carried);
    const withAboard = restAboard * treesHold(aboard);
    const withKit = restWithKit * treesHold(carried);
    return {
      function: {
        id: String(snapshot.functions.id[f.row] ?? ""),
        name: snapshot.functions.name[f.row] ?? "",
      },
      tier: tierNames[f.tier === 0 ? 0 : f.tier === 2 ? 2 : 1],
      need: f.need,
      fitted: f.items.length,
      sameModel: f.soleModel >= 0,
      withAboard,
      withKit,
      method,
      words: words(f, withKit, method, countsServices(groups)),
    };
  });
}

/** Whether a planned service draws on the parts that decide the function: then the figure is a floor. */
const countsServices = (groups: readonly StoppingGroup[]): boolean =>
  groups.some((group) =>
    group.rows.some(({ row }) => row.demand.lines.some((line) => line.origin === "service")),
  );

function words(f: ServedFunction, withKit: number, method: Method, services: boolean): string {
  const needs = `${f.need} of ${f.items.length} needed`;
  if (f.items.length < f.need) return `${needs}: cannot be met with what is fitted.`;
  if (method === "not resolved") {
    return `${needs}, several makes that share parts: the figure counts every item as needed, so it is a floor.`;
  }
  const floor = services
    ? " A floor: a service left undone for want of the part counts as lost."
    : "";
  const credit = method === "no credit" ? "; safety gear, so every item counts as needed" : "";
  return `${needs}${credit}: lost for want of a part in ${chanceWords(1 - withKit)} crossings with the kit (failures no spare can mend are listed apart).${floor}`;
}

/** Pr(at least k items can be kept whole), for one stock level per part class. */
function survival(
  groups: readonly StoppingGroup[],
  f: ServedFunction,
  robbing: boolean,
  spares: (row: KitRow) => number,
): readonly [number, Method] {
  if (f.items.length < f.need) return [0, "no robbing"];
  const allRows = [...new Set(groups.flatMap((group) => group.rows.map(({ row }) => row)))];
  const shared = allRows.length < groups.reduce((sum, group) => sum + group.rows.length, 0);
  if (f.tier === 0) {
    const all = allRows.reduce((p, row) => p * atMost(row.demand.pmf, spares(row)), 1);
    return [all, "no credit"];
  }
  if (!robbing) {
    const parts = allRows.map((row) => ({ demand: row.demand.pmf, spares: spares(row) }));
    return [noRobbingSurvival(parts, f.items.length, f.need), "no robbing"];
  }
  if (groups.length > 1 && shared) {
    const floor = allRows.reduce((p, row) => p * atMost(row.demand.pmf, spares(row)), 1);
    return [floor, "not resolved"];
  }
  const models: ModelGroup[] = groups.map((group) => ({
    fitted: group.fitted,
    parts: group.rows.map(({ row, pieces }) => ({
      demand: row.demand.pmf,
      spares: spares(row),
      piecesPerItem: pieces,
    })),
  }));
  return [
    mixedModelSurvival(models, f.need),
    groups.length > 1 ? "convolution of mixed models" : "robbing",
  ];
}

interface StoppingGroup {
  readonly fitted: number;
  readonly rows: readonly { readonly row: KitRow; readonly pieces: number }[];
}

/** Per model that serves the function: its items and the classes whose failure stops one of them. */
function stoppingGroups(
  snapshot: Snapshot,
  kit: VesselKit,
  f: ServedFunction,
): readonly StoppingGroup[] {
  const fitted = new Map<number, number>();
  for (const item of f.items) {
    const model = snapshot.items.model[item] ?? -1;
    fitted.set(model, (fitted.get(model) ?? 0) + 1);
  }
  return [...fitted].map(([model, count]) => ({
    fitted: count,
    rows: kit.rows.flatMap((row) => {
      const pieces = row.demand.lines
        .filter((line) => line.model === model && line.effect === 0 && line.origin === "failure")
        .reduce((sum, line) => sum + line.quantity, 0);
      if (pieces === 0) return [];
      // Safety gear is never robbed, whatever function its parts also stop: it lends no pieces.
      return [{ row, pieces: row.demand.isSafety ? 0 : pieces }];
    }),
  }));
}
