import {
  joinKey,
  keyPiece,
  mintNodeId,
  type NeedName,
  needNames,
} from "../../../graph-schema/index.ts";
import type { ChooseRequest } from "../../contract/choose.contract.ts";
import { Problem } from "../../errors/problem.ts";
import { isoOfDay } from "../../scoring/aboard/calendar.ts";
import { type PositionNeed, positionNeeds } from "../../scoring/choice/meets-needs.ts";
import { type AddedLink, type AddedNode, addRows } from "../../scoring/snapshot/add-rows.ts";
import { imagine } from "../../scoring/snapshot/imagine.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { functionByWord, itemByWord } from "../what-if/rows-by-word.ts";

/**
 * The kind of gear a request is about, which makes typed in without a kind are taken to be of. That of a new position is
 * written as the catalogue writes it, where only letter case or an English plural differ.
 * Errors: those of finding the item to replace.
 */
export function askedCategory(snapshot: Snapshot, vessel: number, request: ChooseRequest): string {
  const { models, items } = snapshot;
  const [first] = request.replace ?? [];
  if (first !== undefined)
    return models.category[items.model[itemByWord(snapshot, first, vessel)] ?? -1] ?? "";
  const wanted = request.position?.category.trim() ?? "";
  const forms = singularForms(wanted.toLowerCase());
  return (
    models.category.find((category) => category.toLowerCase() === wanted.toLowerCase()) ??
    models.category.find((category) => forms.includes(category.toLowerCase())) ??
    wanted
  );
}

/** What a word may be the plural of: "winches" of "winch", "pumps" of "pump", "batteries" of "battery". */
const singularForms = (word: string): readonly string[] => [
  word.replace(/s$/, ""),
  word.replace(/es$/, ""),
  word.replace(/ies$/, "y"),
];

/** Gear fitted for trial: the snapshot, and the rows of the items concerned. */
export interface Fitting {
  readonly snapshot: Snapshot;
  readonly items: readonly number[];
}

/** The position a make is wanted for. */
export interface ChoiceScene {
  readonly words: string;
  /** Positions by name, as many as are asked about. */
  readonly names: readonly string[];
  readonly units: number;
  /** The most units for which a turning point is looked for. */
  readonly mostUnits: number;
  readonly category: string;
  readonly needs: readonly PositionNeed[];
  /** Rows of the functions served. */
  readonly functions: readonly number[];
  /** Models fitted in the positions now. */
  readonly fittedNow: readonly number[];
  /** The boat with this model, new, in the first `units` positions. */
  readonly fit: (model: number, units: number) => Fitting;
}

/** New gear of the same kind beyond what is asked about, when the number of units is varied. */
const mostFurther = 6;

/**
 * Settles which position a request means, what it needs and how a model is fitted there for trial.
 * Errors: `not-found`, `input-invalid` (a name that fits several; items of several kinds; items of no known kind).
 */
export function choiceScene(
  snapshot: Snapshot,
  vessel: number,
  request: ChooseRequest,
  departsDay: number,
): ChoiceScene {
  const asked: Partial<Record<NeedName, number>> = {};
  for (const name of needNames) {
    const figure = request.needs?.[name];
    if (figure !== undefined) asked[name] = figure;
  }
  const { replace, position } = request;
  if (replace !== undefined) return replacement(snapshot, vessel, replace, asked, departsDay);
  if (position === undefined) {
    throw new Problem(
      "input-invalid",
      "A choice needs either items to replace or a new position; received neither. Name one.",
    );
  }
  const category = askedCategory(snapshot, vessel, request);
  return addition(snapshot, vessel, { ...position, category }, asked, departsDay);
}

function replacement(
  snapshot: Snapshot,
  vessel: number,
  words: readonly string[],
  asked: Partial<Record<NeedName, number>>,
  departsDay: number,
): ChoiceScene {
  const { items, models, serves } = snapshot;
  const wanted = [...new Set(words.map((word) => itemByWord(snapshot, word, vessel)))];
  const kinds = [...new Set(wanted.map((item) => models.category[items.model[item] ?? -1] ?? ""))];
  const [category = ""] = kinds;
  if (kinds.length !== 1 || category === "") {
    throw new Problem(
      "input-invalid",
      `Items replaced by one make must be gear of one known kind; ${wanted.map((item) => `"${items.position[item]}" is ${kindWords(models.category[items.model[item] ?? -1])}`).join(", ")}. ${kinds.length > 1 ? "Ask for each kind apart." : "Give its model a category."}`,
    );
  }
  const fittedNow = [...new Set(wanted.map((item) => items.model[item] ?? -1))];
  const alike = [...items.id.keys()].filter(
    (item) =>
      items.vessel[item] === vessel &&
      fittedNow.includes(items.model[item] ?? -1) &&
      !wanted.includes(item),
  );
  const order = [...wanted, ...alike.slice(0, mostFurther)];
  const functions = new Set<number>();
  for (const item of wanted) {
    for (const row of serves.target.subarray(serves.start[item], serves.start[item + 1]))
      functions.add(row);
  }
  const names = wanted.map((item) => items.position[item] ?? "");
  return {
    words: listWords(names),
    names,
    units: wanted.length,
    mostUnits: order.length,
    category,
    needs: positionNeeds(snapshot, wanted, asked),
    functions: [...functions].sort((a, b) => a - b),
    fittedNow,
    fit: (model, units) => {
      const chosen = order.slice(0, units);
      return {
        snapshot: imagine(snapshot, {
          replace: chosen.map((item) => ({ item, model })),
          fittedOnDay: departsDay,
        }),
        items: chosen,
      };
    },
  };
}

const kindWords = (category: string | undefined): string =>
  category === undefined || category === "" ? "of no known kind" : `a ${category}`;

function addition(
  snapshot: Snapshot,
  vessel: number,
  position: NonNullable<ChooseRequest["position"]>,
  asked: Partial<Record<NeedName, number>>,
  departsDay: number,
): ChoiceScene {
  const units = position.count ?? 1;
  const name = position.name ?? `new ${position.category}`;
  const functions = (position.serves ?? []).map((word) => functionByWord(snapshot, word, vessel));
  const fittedOn = isoOfDay(departsDay);
  const names = Array.from({ length: units }, (_, at) =>
    units === 1 ? name : `${name} ${at + 1}`,
  );
  const fit = (model: number, count: number): Fitting => {
    const nodes: AddedNode[] = [];
    const links: AddedLink[] = [];
    for (let at = 1; at <= count; at++) {
      // A key no fitted item can have: U+001F cannot be typed into a position.
      const key = joinKey("trial", keyPiece(name), String(at));
      const id = mintNodeId("FittedItem", key);
      const { hoursPerDay, operationsPerDay } = position;
      nodes.push({
        label: "FittedItem",
        id,
        properties: {
          position: count === 1 ? name : `${name} ${at}`,
          fittedOn,
          hoursRun: 0,
          ...(hoursPerDay === undefined ? {} : { hoursPerDay }),
          ...(operationsPerDay === undefined ? {} : { operationsPerDay }),
        },
      });
      const link = (type: AddedLink["type"], to: AddedLink["to"] | undefined, more = {}): void => {
        if (to !== undefined) links.push({ type, from: id, to, properties: more });
      };
      link("FITTED_ON", snapshot.vessels.id[vessel]);
      link("IS_MODEL", snapshot.models.id[model]);
      for (const row of functions) link("SERVES", snapshot.functions.id[row]);
      snapshot.services.model.forEach((of, service) => {
        if (of !== model) return;
        link("SERVICED", snapshot.services.id[service], { lastDone: fittedOn, lastDoneHours: 0 });
      });
    }
    const first = snapshot.items.id.length;
    return {
      snapshot: {
        ...addRows(snapshot, { nodes, links }),
        imaginedFrom: snapshot.imaginedFrom ?? snapshot,
      },
      items: Array.from({ length: count }, (_, at) => first + at),
    };
  };
  return {
    words: units === 1 ? name : `${name}, ${units} units`,
    names,
    units,
    mostUnits: units + mostFurther,
    category: position.category,
    needs: positionNeeds(snapshot, [], asked),
    functions,
    fittedNow: [],
    fit,
  };
}

/** "a", "a and b", "a, b and c". */
export function listWords(names: readonly string[]): string {
  const last = names.at(-1) ?? "";
  // Positions hold commas themselves, so a list of them is parted by semicolons.
  const mark = names.some((name) => name.includes(",")) ? "; " : ", ";
  return names.length < 2 ? last : `${names.slice(0, -1).join(mark)} and ${last}`;
}
