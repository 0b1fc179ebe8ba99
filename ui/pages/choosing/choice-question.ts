import type { ChooseRequest } from "../../../api/contract/choose.contract.ts";
import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { type NeedName, needNames } from "../../../graph-schema/needs.ts";
import { kitQuestion } from "../crossing/kit-question.ts";
import { ownerOf } from "../records/record-columns.ts";
import { readMakes } from "./typed-makes.ts";

type Query = ReadonlyMap<string, string>;
export type Needs = Readonly<Partial<Record<NeedName, number>>>;

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

/** A list of ids in the address. */
export const idsIn = (text: string | undefined): readonly string[] =>
  (text ?? "").split(",").filter((id) => id !== "");

/** Whether the address asks about a new position, chosen or still to be described. */
export const asksForNew = (query: Query): boolean => query.get("for") === "new";

/** Needs as they stand in the address: `workingLoadKg:900,voltage:12`; what is none is left out. */
export function readNeeds(text: string | undefined): Needs {
  const found: Partial<Record<NeedName, number>> = {};
  for (const piece of (text ?? "").split(",")) {
    const [name, figure] = piece.split(":");
    const need = needNames.find((one) => one === name);
    const value = Number(figure);
    if (need !== undefined && figure !== undefined && figure !== "" && value >= 0)
      found[need] = value;
  }
  return found;
}

export const writeNeeds = (needs: Needs): string =>
  needNames
    .flatMap((name) => (needs[name] === undefined ? [] : [`${name}:${needs[name]}`]))
    .join(",");

const figureIn = (text: string | undefined, most: number): number | undefined => {
  const value = Number(text);
  return text !== undefined && text !== "" && value >= 0 && value <= most ? value : undefined;
};

/** How many units of a new position the address asks about. */
export function unitsIn(query: Query): number {
  const count = Number(query.get("count"));
  return Number.isInteger(count) && count >= 1 && count <= 50 ? count : 1;
}

export const hoursIn = (query: Query) => figureIn(query.get("hours"), 24);
export const operationsIn = (query: Query) => figureIn(query.get("operations"), 100_000);

/** The choice as the address says it; nothing where it names neither gear to replace nor the kind of something new. */
export function choiceQuestion(query: Query, usualVessel?: string): ChooseRequest | undefined {
  const { objective: _objective, rule: _rule, ...terms } = kitQuestion(query);
  const needs = readNeeds(query.get("needs"));
  const without = idsIn(query.get("out"));
  const typed = readMakes(query.get("makes")).flatMap(({ make }) =>
    make === undefined ? [] : [make],
  );
  const common = {
    ...terms,
    ...(Object.keys(needs).length === 0 ? {} : { needs }),
    ...(without.length === 0 ? {} : { without: [...without] }),
    ...(typed.length === 0 ? {} : { typed }),
  };
  if (!asksForNew(query)) {
    const replace = idsIn(query.get("items"));
    return replace.length === 0 ? undefined : { ...common, replace: [...replace] };
  }
  const category = query.get("kind") ?? "";
  const vessel = query.get("vessel") ?? usualVessel;
  if (category === "" || vessel === undefined) return undefined;
  const name = query.get("name");
  const serves = idsIn(query.get("serves"));
  const hoursPerDay = hoursIn(query);
  const operationsPerDay = operationsIn(query);
  return {
    ...common,
    vessel,
    position: {
      category,
      count: unitsIn(query),
      ...(name === undefined ? {} : { name }),
      ...(serves.length === 0 ? {} : { serves: [...serves] }),
      ...(hoursPerDay === undefined ? {} : { hoursPerDay }),
      ...(operationsPerDay === undefined ? {} : { operationsPerDay }),
    },
  };
}
