import type { CommonalityAnswer, CommonalityRequest } from "../contract/commonality.contract.ts";
import { Problem } from "../errors/problem.ts";
import { type PartClasses, partClasses } from "../scoring/classes/part-classes.ts";
import { fittedScope } from "../scoring/commonality/fitted-scope.ts";
import { distinctKits } from "../scoring/commonality/kits.ts";
import { mostAlike } from "../scoring/commonality/likeness.ts";
import { commonCurrency, priceList } from "../scoring/provision/class-price.ts";
import type { GearPicture } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { nodeByWord } from "./choose-scope.ts";
import { commonalityIndicesOf } from "./commonality/index-row.ts";
import { replacementOpportunities } from "./commonality/opportunities.ts";
import { partsMatrix } from "./commonality/parts-matrix.ts";
import { gearPicture } from "./gear-picture.ts";
import { interchangeNotices } from "./interchange-notices.ts";
import { modelReference } from "./kit/kit-lines.ts";
import { besideBefore } from "./what-if/beside-before.ts";
import { commonalitySideBySide } from "./what-if/compare-commonality.ts";
import { plural } from "./words.ts";

const mostPairs = 500;

/**
 * How alike the fitted gear is: indices for the whole, each category and each vessel; the distinct spares kits;
 * likeness of models; the parts matrix in block order; what would vanish by standardising.
 *
 * With `whatIf` the gear is that of the graph as imagined, its figures beside those of the graph as it is.
 * Errors: `not-found` (vessel; a category no fitted model has); with `whatIf` also `input-invalid`, `key-taken`.
 */
export async function measureCommonality(
  store: GraphStore,
  request: CommonalityRequest,
): Promise<CommonalityAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return commonalityAsItIs(store, asked);
  return besideBefore(
    store,
    whatIf,
    (from) => commonalityAsItIs(from, asked),
    commonalitySideBySide,
  );
}

async function commonalityAsItIs(
  store: GraphStore,
  request: CommonalityRequest,
): Promise<CommonalityAnswer> {
  const vesselNode =
    request.vessel === undefined ? undefined : await nodeByWord(store, "Vessel", request.vessel);
  const snapshot = await gearPicture(store, vesselNode?.id);
  const vessel = vesselNode === undefined ? undefined : snapshot.vessels.id.indexOf(vesselNode.id);
  const category = categoryOf(snapshot.models.category, request.category);
  const classes = partClasses(snapshot);
  const currency = commonCurrency(snapshot);
  const prices = priceList(snapshot, classes, currency, {});
  const limits = {
    ...(vessel === undefined ? {} : { vessel }),
    ...(category === undefined ? {} : { category }),
  };
  const scope = fittedScope(snapshot, classes, limits);
  const measure = (within: { vessel?: number; category?: string }) =>
    commonalityIndicesOf(fittedScope(snapshot, classes, within), prices);
  const keptApart = endsKeptApart(snapshot, classes);
  /** One vessel's figures are those it has when asked about alone: its own gear says what is safety gear. */
  const measureVessel = (row: number) => {
    const within = { ...limits, vessel: row };
    const asFleet = fittedScope(snapshot, classes, within);
    if (asFleet.partClasses.every((one) => !keptApart.has(one)))
      return commonalityIndicesOf(asFleet, prices);
    const own = partClasses(snapshot, { vessel: row });
    const ownPrices = priceList(snapshot, own, currency, {});
    return commonalityIndicesOf(fittedScope(snapshot, own, within), ownPrices);
  };
  const whole = commonalityIndicesOf(scope, prices);
  const kits = distinctKits(scope.sparable);
  const reference = (row: number) => modelReference(snapshot, scope.models[row] ?? 0);
  const maximal = new Set(kits.maximalKits);
  const pairs = mostAlike(scope.all, mostPairs);
  const categories = [
    ...new Set(scope.models.map((m) => snapshot.models.category[m] ?? "")),
  ].sort();
  const vesselRows = vessel === undefined ? snapshot.vessels.id.map((_, row) => row) : [vessel];
  return {
    scope: {
      ...(vessel === undefined
        ? {}
        : {
            vessel: {
              id: snapshot.vessels.id[vessel] ?? "",
              name: snapshot.vessels.name[vessel] ?? "",
            },
          }),
      ...(category === undefined ? {} : { category }),
    },
    sentence: sentence(whole, scope.withoutList.length),
    whole,
    categories: categories.map((name) => ({
      category: name === "" ? "no category" : name,
      ...measure({ ...limits, category: name }),
    })),
    vessels: vesselRows.map((row) => ({
      vessel: { id: snapshot.vessels.id[row] ?? "", name: snapshot.vessels.name[row] ?? "" },
      ...measureVessel(row),
    })),
    kits: kits.modelsOfKit.map((rows, kit) => ({
      models: rows.map(reference),
      items: rows.reduce((sum, row) => sum + (scope.items[row] ?? 0), 0),
      parts: kits.partsOfKit[kit]?.length ?? 0,
      maximal: maximal.has(kit),
      containedIn: [...(kits.containedIn[kit] ?? [])],
    })),
    likeness: [...pairs.first].map((first, i) => ({
      a: reference(first),
      b: reference(pairs.second[i] ?? 0),
      shared: pairs.shared[i] ?? 0,
      jaccard: pairs.likeness[i] ?? 0,
    })),
    opportunities: replacementOpportunities(snapshot, classes, scope, prices, currency),
    matrix: partsMatrix(snapshot, classes, scope),
    notices: [
      ...noticesOf(scope.withoutList.map((m) => modelReference(snapshot, m).name)),
      ...interchangeNotices(snapshot, classes),
    ],
  };
}

/** Classes at either end of a pair kept apart for safety's sake over the whole scope. */
function endsKeptApart({ interchange }: GearPicture, { classOf, safetyApart }: PartClasses) {
  const ends = safetyApart.flatMap((pair) => [
    interchange.a[pair] ?? -1,
    interchange.b[pair] ?? -1,
  ]);
  return new Set(ends.map((part) => classOf[part] ?? -1));
}

function categoryOf(known: readonly string[], asked: string | undefined): string | undefined {
  if (asked === undefined) return undefined;
  const match = known.find((name) => name.toLowerCase() === asked.trim().toLowerCase());
  if (match !== undefined) return match;
  const names = [...new Set(known)].filter((name) => name !== "").sort();
  throw new Problem(
    "not-found",
    `No fitted model is of the category "${asked}". ${names.length === 0 ? "No model has a category yet: import a gear list with one." : `There are: ${names.join(", ")}.`}`,
  );
}

function sentence(whole: CommonalityAnswer["whole"], withoutList: number): string {
  if (whole.models === 0) {
    return "No fitted model has a parts list yet, so how alike the gear is cannot be told. Import a parts list.";
  }
  const alone =
    whole.distinctParts === 0
      ? 0
      : Math.round((100 * whole.usedByOneModelOnly) / whole.distinctParts);
  const unknown =
    withoutList === 0
      ? ""
      : ` ${plural(withoutList, "model")} without a parts list ${withoutList === 1 ? "is" : "are"} not counted.`;
  const boxes =
    whole.maximalKits === whole.distinctKits
      ? "none of which fits within another"
      : `of which ${whole.distinctKits - whole.maximalKits} fit within another and need no box of their own`;
  return `${plural(whole.items, "fitted item")} of ${plural(whole.models, "model")} take ${plural(whole.distinctParts, "different part")}, ${alone} % of them for one model only, and need ${plural(whole.distinctKits, "different spares kit")}, ${boxes}.${unknown}`;
}

const noticesOf = (names: readonly string[]): CommonalityAnswer["notices"] =>
  names.length === 0
    ? []
    : [
        {
          code: "parts-list-unknown",
          text: `No parts list is known for ${names.slice(0, 6).join(", ")}${names.length > 6 ? ` and ${names.length - 6} more` : ""}: what they need is unknown, not nothing.`,
        },
      ];
