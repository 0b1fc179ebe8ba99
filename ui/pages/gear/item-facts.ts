import type { RecordsAnswer } from "../../../api/contract/records.contract.ts";
import type { DueAnswer } from "../../../api/contract/stock.contract.ts";
import type { TierName } from "../../components/signs.tsx";
import { ask } from "../../data/ask.ts";
import { listRecords, showRecord } from "../../data/records-client.ts";

/** What a list of gear says of an item beyond its own record. */
export interface ItemFacts {
  readonly functions: readonly { readonly name: string; readonly tier: TierName | undefined }[];
  /** The service that falls due first, if any does before the next arrival. */
  readonly service:
    | { readonly name: string; readonly dueOn: string | null; readonly overdue: boolean }
    | undefined;
}

/** Above so many functions their items are not looked up: a list must not ask a thousand questions. */
const mostFunctions = 150;

const tierOf = (value: unknown): TierName | undefined =>
  value === "safety" || value === "passage" || value === "comfort" ? value : undefined;

/** Functions and next services by item; one question for each function, asked side by side. */
export async function itemFacts(signal: AbortSignal): Promise<ReadonlyMap<string, ItemFacts>> {
  const [due, functions] = await Promise.all([
    ask<DueAnswer>("/api/due", { signal }),
    listRecords({ label: "RequiredFunction", limit: mostFunctions }, signal),
  ]);
  const facts = new Map<string, ItemFacts>();
  const add = (item: string, more: (now: ItemFacts) => ItemFacts) =>
    facts.set(item, more(facts.get(item) ?? { functions: [], service: undefined }));
  if (functions.total <= mostFunctions) await addFunctions(functions, add, signal);
  for (const { item, service, dueOn, overdue } of due.services)
    add(item.id, (now) => ({
      ...now,
      service: now.service ?? { name: service.name, dueOn, overdue },
    }));
  return facts;
}

async function addFunctions(
  { rows }: RecordsAnswer,
  add: (item: string, more: (now: ItemFacts) => ItemFacts) => void,
  signal: AbortSignal,
): Promise<void> {
  const answers = await Promise.all(rows.map(({ id }) => showRecord(id, signal)));
  for (const { record, links } of answers)
    for (const link of links.find(({ type, direction }) => type === "SERVES" && direction === "in")
      ?.shown ?? [])
      add(link.from.id, (now) => ({
        ...now,
        functions: [
          ...now.functions,
          { name: record.name, tier: tierOf(record.properties["tier"]) },
        ],
      }));
}
