import { nodeLabelNames } from "../../graph-schema/index.ts";
import type { OverviewAnswer } from "../contract/find.contract.ts";
import { isoOfDay } from "../scoring/aboard/calendar.ts";
import { commonCurrency } from "../scoring/provision/class-price.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";

const known = (value: number | undefined): number | null =>
  value === undefined || Number.isNaN(value) ? null : value;

const dayText = (day: number | undefined): string | null => {
  const value = known(day);
  return value === null ? null : isoOfDay(value);
};

function categoriesOf({ models, items }: Snapshot): OverviewAnswer["categories"] {
  const tally = new Map<string, { models: number; items: number }>();
  const entryOf = (model: number) => {
    const category = models.category[model] || "no category";
    const entry = tally.get(category) ?? { models: 0, items: 0 };
    tally.set(category, entry);
    return entry;
  };
  for (let model = 0; model < models.id.length; model++) entryOf(model).models++;
  for (const model of items.model) if (model >= 0) entryOf(model).items++;
  return [...tally]
    .map(([category, counts]) => ({ category, ...counts }))
    .sort((a, b) => b.items - a.items || a.category.localeCompare(b.category, "en"));
}

/** What is in the graph: counts per label, vessels with their gear, crossings by departure, categories. */
export async function surveyGraph(store: GraphStore): Promise<OverviewAnswer> {
  const snapshot = await store.snapshot();
  const counts: Record<string, number> = {};
  for (const label of nodeLabelNames) counts[label] = await store.count(label);
  const { vessels, items, crossings, sailedBy } = snapshot;
  const itemsOf = new Array<number>(vessels.id.length).fill(0);
  for (const vessel of items.vessel) if (vessel >= 0) itemsOf[vessel] = (itemsOf[vessel] ?? 0) + 1;
  return {
    counts,
    currency: commonCurrency(snapshot),
    vessels: vessels.id.map((id, row) => ({
      id,
      name: vessels.name[row] ?? "",
      items: itemsOf[row] ?? 0,
    })),
    crossings: crossings.id
      .map((id, row) => ({
        id: String(id),
        name: crossings.name[row] ?? "",
        departs: dayText(crossings.departsDay[row]),
        daysExpected: known(crossings.daysExpected[row]),
        daysLongest: known(crossings.daysLongest[row]),
        vessels: [...sailedBy.target.subarray(sailedBy.start[row], sailedBy.start[row + 1])].map(
          (vessel) => vessels.name[vessel] ?? "",
        ),
      }))
      .sort((a, b) => (a.departs ?? "9999").localeCompare(b.departs ?? "9999")),
    categories: categoriesOf(snapshot),
  };
}
