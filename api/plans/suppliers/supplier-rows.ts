import type { SuppliersAnswer } from "../../contract/suppliers.contract.ts";
import type { SuppliedGear } from "../../scoring/coverage/supplied-gear.ts";
import type { GearPicture } from "../../scoring/snapshot/snapshot.ts";
import { partlyProblem } from "./reach-curve.ts";

type Refer = (supplier: number) => { id: string; name: string };

/** Every supplier's own reach, the widest first; those that offer nothing for this gear stand last, not left out. */
export function supplierRows(
  snapshot: GearPicture,
  gear: SuppliedGear,
  sellers: readonly (readonly number[])[],
  refer: Refer,
): SuppliersAnswer["suppliers"] {
  const partly = partlyProblem(gear).columns;
  const { port, country, contact } = snapshot.suppliers;
  return gear.columns
    .map((rows, supplier) => {
      const offered = new Set(rows);
      const weightOf = (needs: SuppliedGear["needs"]): number =>
        needs.reduce((sum, { weight }) => sum + weight, 0);
      const touched = (partly[supplier] ?? []).flatMap((at) => gear.needs[at] ?? []);
      return {
        supplier: refer(supplier),
        place: [port[supplier], country[supplier]].filter((text) => text).join(", "),
        contact: contact[supplier] ?? "",
        gearWhole: weightOf(touched.filter((need) => need.rows.every((row) => offered.has(row)))),
        gearPartly: weightOf(touched),
        parts: rows.length,
        onlySourceOf: rows.filter((row) => sellers[row]?.length === 1).length,
      };
    })
    .sort(
      (a, b) =>
        b.gearWhole - a.gearWhole ||
        b.parts - a.parts ||
        (a.supplier.name < b.supplier.name ? -1 : 1),
    );
}

const mostPairs = 200;

/** Pairs of suppliers that offer some of the same parts, most shared first. */
export function supplierOverlaps(gear: SuppliedGear, refer: Refer): SuppliersAnswer["overlaps"] {
  const sets = gear.columns.map((rows) => new Set(rows));
  const found: SuppliersAnswer["overlaps"] = [];
  sets.forEach((first, a) => {
    for (let b = a + 1; b < sets.length; b++) {
      const second = sets[b] ?? new Set<number>();
      let shared = 0;
      for (const row of first) if (second.has(row)) shared++;
      if (shared === 0) continue;
      const jaccard = shared / (first.size + second.size - shared);
      found.push({ a: refer(a), b: refer(b), shared, jaccard });
    }
  });
  return found.sort((x, y) => y.shared - x.shared || y.jaccard - x.jaccard).slice(0, mostPairs);
}
