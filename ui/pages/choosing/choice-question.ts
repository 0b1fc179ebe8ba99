import type { ChooseRequest } from "../../../api/contract/choose.contract.ts";
import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { imagining } from "../../components/imagined/imagined-changes.ts";
import { ownerOf } from "../records/record-columns.ts";

/** Items of one make on one vessel: what one replaces together. */
export interface FittedMake {
  readonly key: string;
  readonly vessel: { readonly id: string; readonly name: string };
  readonly model: { readonly id: string; readonly name: string };
  readonly items: readonly { readonly id: string; readonly name: string }[];
}

/** Fitted items by vessel and make, by name. */
export function fittedMakes(items: readonly RecordDocument[]): readonly FittedMake[] {
  const makes = new Map<string, FittedMake>();
  for (const item of items) {
    const vessel = ownerOf(item, "FITTED_ON");
    const model = ownerOf(item, "IS_MODEL");
    if (vessel === undefined || model === undefined) continue;
    const key = `${vessel.id} ${model.id}`;
    const make = makes.get(key) ?? { key, vessel, model, items: [] };
    makes.set(key, { ...make, items: [...make.items, { id: item.id, name: item.name }] });
  }
  return [...makes.values()].sort((a, b) => a.model.name.localeCompare(b.model.name, "en"));
}

/** The choice as the address says it; nothing where it names nothing to replace. */
export function choiceQuestion(query: ReadonlyMap<string, string>): ChooseRequest | undefined {
  const replace = (query.get("items") ?? "").split(",").filter((id) => id !== "");
  const vessel = query.get("vessel");
  if (replace.length === 0) return undefined;
  return imagining({ replace, ...(vessel === undefined ? {} : { vessel }) }, query);
}
