import type { SuppliersAnswer } from "../../contract/suppliers.contract.ts";
import type { ChosenFew } from "../../scoring/coverage/chosen-few.ts";
import { columnsOfRows } from "../../scoring/coverage/cover-problem.ts";
import { mostComplete } from "../../scoring/coverage/most-complete.ts";
import { mostCovered } from "../../scoring/coverage/most-covered.ts";
import type { SuppliedGear } from "../../scoring/coverage/supplied-gear.ts";

type Curve = SuppliersAnswer["curve"];
type Reach = Curve[number]["parts"];
type Refer = (supplier: number) => { id: string; name: string };

const mostPoints = 12;
/** Nodes times entries allowed to one search: about a second; a tenth of it beyond three suppliers. */
const effort = { covered: 5e6, complete: 8e7 } as const;
const fullEffortUpTo = 3;

/** Best reach of one, two, three ... suppliers, until everything coverable is reached or the points run out. */
export function reachCurve(gear: SuppliedGear, coverable: Coverable, refer: Refer): Curve {
  const partly = partlyProblem(gear);
  const weights = gear.needs.map(({ weight }) => weight);
  const ones = new Array<number>(gear.rowCount).fill(1);
  const singles = Array.from({ length: gear.rowCount }, (_, row) => ({ rows: [row], weight: 1 }));
  const anyOf = (supplier: number): ReadonlySet<number> => new Set(partly.columns[supplier]);
  const curve: Curve = [];
  let former: { whole?: ChosenFew; some?: ChosenFew; parts?: ChosenFew } = {};
  const suppliers = gear.columns.filter((rows) => rows.length > 0).length;
  const entries = gear.columns.reduce((sum, rows) => sum + rows.length, 1);
  const sellers = columnsOfRows(gear);
  const needEntries = gear.needs
    .flatMap(({ rows }) => rows)
    .reduce((sum, row) => sum + (sellers[row]?.length ?? 0), 1);
  for (let count = 1; count <= Math.min(mostPoints, suppliers); count++) {
    const share = count <= fullEffortUpTo ? 1 : 0.1;
    const coveredNodes = Math.ceil((share * effort.covered) / entries);
    const wholeNodes = Math.ceil((share * effort.complete) / needEntries);
    const whole = notWorse(mostComplete(gear, gear.needs, count, wholeNodes), former.whole);
    const some = notWorse(mostCovered(partly, weights, count, coveredNodes), former.some);
    const parts = notWorse(mostCovered(gear, ones, count, coveredNodes), former.parts);
    former = { whole, some, parts };
    const offered = (supplier: number): ReadonlySet<number> => new Set(gear.columns[supplier]);
    curve.push({
      count,
      gearWhole: reachOf(whole, gear.needs, offered, refer),
      gearPartly: reachOf(
        some,
        weights.map((weight, row) => ({ rows: [row], weight })),
        anyOf,
        refer,
      ),
      parts: reachOf(parts, singles, offered, refer),
    });
    if (whole.reached >= coverable.items && parts.reached >= coverable.parts) break;
  }
  return curve;
}

/** What someone sells, and the items that are wholly sold. */
export interface Coverable {
  readonly items: number;
  readonly parts: number;
}

/** More suppliers never reach less: a stopped search falls back on the choice of one fewer. */
const notWorse = (found: ChosenFew, former: ChosenFew | undefined): ChosenFew =>
  former === undefined || found.reached >= former.reached
    ? found
    : {
        ...found,
        chosen: former.chosen,
        reached: former.reached,
        gap: (found.upperBound - former.reached) / found.upperBound,
      };

/** Rows are models, and a supplier covers those of which it offers anything. */
export function partlyProblem(gear: SuppliedGear): {
  rowCount: number;
  columns: number[][];
} {
  const columns = gear.columns.map((rows) => {
    const offered = new Set(rows);
    return gear.needs.flatMap((need, at) =>
      need.rows.some((row) => offered.has(row)) ? [at] : [],
    );
  });
  return { rowCount: gear.needs.length, columns };
}

function reachOf(
  found: ChosenFew,
  needs: SuppliedGear["needs"],
  offered: (supplier: number) => ReadonlySet<number>,
  refer: Refer,
): Reach {
  const sets = found.chosen.map(offered);
  const twice = (row: number): boolean => sets.filter((set) => set.has(row)).length > 1;
  return {
    status: found.status,
    suppliers: found.chosen.map(refer),
    reached: found.reached,
    upperBound: found.upperBound,
    gap: found.gap,
    withoutAnyOne: needs.reduce(
      (sum, { rows, weight }) => sum + (rows.every(twice) ? weight : 0),
      0,
    ),
  };
}
