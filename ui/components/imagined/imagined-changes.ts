import type { WhatIf } from "../../../api/contract/what-if.contract.ts";

/** One imagined change, by ids, as it stands in the address; `kind` is the list of a what-if that it goes into. */
export type Change =
  | {
      readonly kind: "add";
      readonly vessel: string;
      readonly position: string;
      readonly model: string;
      readonly count: number;
      /** Id of the function it serves, or nothing. */
      readonly serves: string;
    }
  | { readonly kind: "replace"; readonly item: string; readonly model: string }
  | { readonly kind: "remove"; readonly item: string }
  | { readonly kind: "loseSuppliers"; readonly supplier: string }
  | { readonly kind: "rates"; readonly part: string; readonly times: number };

/** Stand between the pieces of a change, and between changes; names are kept free of them. */
const between = "*";
const apart = "!";
const unsaid = "-";

const plain = (text: string): string => text.replaceAll(/[*!]/g, " ").trim();

function piecesOf(change: Change): readonly string[] {
  switch (change.kind) {
    case "add":
      return [
        change.vessel,
        plain(change.position),
        change.model,
        String(change.count),
        change.serves === "" ? unsaid : change.serves,
      ];
    case "replace":
      return [change.item, change.model];
    case "remove":
      return [change.item];
    case "loseSuppliers":
      return [change.supplier];
    case "rates":
      return [change.part, String(change.times)];
  }
}

function changeOf(text: string): Change | undefined {
  const [kind, ...pieces] = text.split(between);
  const [first = "", second = "", model = "", count = "", serves = ""] = pieces;
  const times = Number(second);
  const units = Number(count);
  if (first === "") return undefined;
  switch (kind) {
    case "add":
      return second === "" || model === "" || !(units >= 1 && units <= 50)
        ? undefined
        : {
            kind,
            vessel: first,
            position: second,
            model,
            count: Math.floor(units),
            serves: serves === unsaid ? "" : serves,
          };
    case "replace":
      return second === "" ? undefined : { kind, item: first, model: second };
    case "remove":
      return { kind, item: first };
    case "loseSuppliers":
      return { kind, supplier: first };
    case "rates":
      return times > 0 && times <= 1000 ? { kind, part: first, times } : undefined;
    default:
      return undefined;
  }
}

/** The changes an address imagines; what cannot be read is left out. */
export const readImagined = (query: ReadonlyMap<string, string>): readonly Change[] =>
  (query.get("imagine") ?? "").split(apart).flatMap((text) => changeOf(text) ?? []);

/** The changes as an address holds them. */
export const writeImagined = (changes: readonly Change[]): string =>
  changes.map((change) => [change.kind, ...piecesOf(change)].join(between)).join(apart);

/** The changes as plans are asked; undefined where nothing is imagined. */
export function whatIfOf(query: ReadonlyMap<string, string>): WhatIf | undefined {
  const changes = readImagined(query);
  if (changes.length === 0) return undefined;
  const of = <K extends Change["kind"]>(kind: K) =>
    changes.filter((change): change is Extract<Change, { kind: K }> => change.kind === kind);
  const lists = {
    add: of("add").map(({ kind: _, serves, ...one }) => ({
      ...one,
      ...(serves === "" ? {} : { serves: [serves] }),
    })),
    replace: of("replace").map(({ item, model }) => ({ item, model })),
    remove: of("remove").map(({ item }) => ({ item })),
    loseSuppliers: of("loseSuppliers").map(({ supplier }) => supplier),
    rates: of("rates").map(({ part, times }) => ({ part, times })),
  };
  return Object.fromEntries(Object.entries(lists).filter(([, list]) => list.length > 0));
}

/** The question with what the address imagines, where it imagines anything. */
export function imagining<Q extends object>(
  question: Q,
  query: ReadonlyMap<string, string>,
): Q & { whatIf?: WhatIf } {
  const whatIf = whatIfOf(query);
  return whatIf === undefined ? question : { ...question, whatIf };
}
