import type { SuppliersAnswer, SuppliersRequest } from "../contract/suppliers.contract.ts";
import { partClasses } from "../scoring/classes/part-classes.ts";
import { fittedScope } from "../scoring/commonality/fitted-scope.ts";
import { columnsOfRows } from "../scoring/coverage/cover-problem.ts";
import { suppliedGear } from "../scoring/coverage/supplied-gear.ts";
import type { GearPicture } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { nodeByWord } from "./choose-scope.ts";
import { gearPicture } from "./gear-picture.ts";
import { interchangeNotices } from "./interchange-notices.ts";
import { modelReference } from "./kit/kit-lines.ts";
import { leastCover } from "./suppliers/least-cover.ts";
import { partsAtStake } from "./suppliers/parts-at-stake.ts";
import { reachCurve } from "./suppliers/reach-curve.ts";
import { supplierNotices } from "./suppliers/supplier-notices.ts";
import { supplierOverlaps, supplierRows } from "./suppliers/supplier-rows.ts";
import { supplierCounterweight, supplierSentence } from "./suppliers/supplier-words.ts";
import { besideBefore } from "./what-if/beside-before.ts";
import { suppliersSideBySide } from "./what-if/compare-suppliers.ts";

/**
 * Which suppliers cover the fitted gear: each alone, the best one, two, three ..., the least that cover everything
 * on sale, where they overlap, parts only one sells and parts nobody sells.
 *
 * With `whatIf` the graph is as imagined, its figures beside those of the graph as it is.
 * Errors: `not-found` (vessel; a supplier that is weighed); with `whatIf` also `input-invalid`, `key-taken`.
 */
export async function rankSuppliers(
  store: GraphStore,
  request: SuppliersRequest,
): Promise<SuppliersAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return suppliersAsTheyAre(store, asked);
  return besideBefore(
    store,
    whatIf,
    (from) => suppliersAsTheyAre(from, asked),
    suppliersSideBySide,
  );
}

async function suppliersAsTheyAre(
  store: GraphStore,
  request: SuppliersRequest,
): Promise<SuppliersAnswer> {
  const vesselNode =
    request.vessel === undefined ? undefined : await nodeByWord(store, "Vessel", request.vessel);
  const snapshot = await gearPicture(store, vesselNode?.id);
  const vessel = vesselNode === undefined ? undefined : snapshot.vessels.id.indexOf(vesselNode.id);
  const classes = partClasses(snapshot);
  const scope = fittedScope(snapshot, classes, vessel === undefined ? {} : { vessel });
  const gear = suppliedGear(snapshot, classes, scope);
  const sellers = columnsOfRows(gear);
  const refer = (supplier: number) => ({
    id: String(snapshot.suppliers.id[supplier] ?? ""),
    name: snapshot.suppliers.name[supplier] ?? "",
  });
  const sold = (row: number): boolean => (sellers[row]?.length ?? 0) > 0;
  const coverable = {
    items: gear.needs.reduce((sum, { rows, weight }) => sum + (rows.every(sold) ? weight : 0), 0),
    parts: [...sellers.keys()].filter(sold).length,
  };
  const costs = await weightsOf(store, snapshot, request.weights);
  const least = leastCover({ rowCount: gear.rowCount, columns: gear.columns }, refer);
  const leastWeighted =
    costs === undefined
      ? undefined
      : leastCover({ rowCount: gear.rowCount, columns: gear.columns, costs }, refer);
  const curve = reachCurve(gear, coverable, refer);
  const suppliers = supplierRows(snapshot, gear, sellers, refer);
  const facts = {
    gear: {
      items: gear.items,
      coverable: coverable.items,
      parts: gear.rowCount,
      partsSold: coverable.parts,
    },
    suppliers,
    curve,
    least,
    ...partsAtStake(snapshot, classes, gear, sellers, vessel, refer),
  };
  const proofs = [
    least,
    ...(leastWeighted === undefined ? [] : [leastWeighted]),
    ...curve.flatMap(({ gearWhole, gearPartly, parts }) => [gearWhole, gearPartly, parts]),
  ];
  const nameOf = ({ supplier }: (typeof suppliers)[number]): string => supplier.name;
  const needed = suppliers.filter(({ parts }) => parts > 0);
  return {
    scope:
      vessel === undefined
        ? {}
        : {
            vessel: {
              id: String(snapshot.vessels.id[vessel] ?? ""),
              name: snapshot.vessels.name[vessel] ?? "",
            },
          },
    sentence: supplierSentence(facts),
    ...facts,
    ...(leastWeighted === undefined ? {} : { leastWeighted }),
    overlaps: supplierOverlaps(gear, refer),
    counterweight: supplierCounterweight(facts),
    cautions: [...cautions],
    notices: supplierNotices({
      modelsWithoutList: scope.withoutList.map((model) => modelReference(snapshot, model).name),
      itemsOfUnknownModel: itemsOfUnknownModel(snapshot, vessel),
      itemsWithNothingToSpare: gear.itemsWithNothingToSpare,
      withoutContact: needed.filter(({ contact }) => contact === "").map(nameOf),
      offeringNothing: suppliers.filter(({ parts }) => parts === 0).map(nameOf),
      interchange: [...interchangeNotices(snapshot, classes)],
      isProven: proofs.every(({ status }) => status === "optimal"),
    }),
  };
}

const itemsOfUnknownModel = ({ items }: GearPicture, vessel: number | undefined): number =>
  [...items.model.keys()].filter(
    (item) =>
      (items.model[item] ?? -1) < 0 && (vessel === undefined || items.vessel[item] === vessel),
  ).length;

/** A weight per supplier of the snapshot, 1 where none is asked for; undefined where none is asked for at all. */
async function weightsOf(
  store: GraphStore,
  snapshot: GearPicture,
  weights: SuppliersRequest["weights"],
): Promise<number[] | undefined> {
  if (weights === undefined || weights.length === 0) return undefined;
  const costs = snapshot.suppliers.id.map(() => 1);
  for (const { supplier, weight } of weights) {
    const { id } = await nodeByWord(store, "Supplier", supplier);
    const row = snapshot.suppliers.id.indexOf(id);
    if (row >= 0) costs[row] = weight;
  }
  return costs;
}
