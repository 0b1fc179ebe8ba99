import type { CommonalityAnswer } from "../../../api/contract/commonality.contract.ts";
import type { LinkDocument, RecordAnswer } from "../../../api/contract/records.contract.ts";
import type { Web, WebNode } from "../../charts/supply-web.ts";
import { moneyAmountText, plural } from "../../components/figures.ts";
import { post } from "../../data/ask.ts";
import { showRecord } from "../../data/records-client.ts";

/** Most nodes in a column: a web of everything says nothing. */
const most = 30;

const shownLinks = (
  answer: RecordAnswer,
  type: string,
  direction: "in" | "out",
): readonly LinkDocument[] =>
  answer.links.find((group) => group.type === type && group.direction === direction)?.shown ?? [];

const priceOf = ({ properties }: LinkDocument): string => {
  const { priceMinor, currency } = properties as { priceMinor?: unknown; currency?: unknown };
  return typeof priceMinor === "number" && typeof currency === "string"
    ? `${moneyAmountText(priceMinor, currency)} ${currency}`
    : "no price";
};

const unique = (nodes: readonly WebNode[]): readonly WebNode[] => [
  ...new Map(nodes.map((node) => [node.id, node])).values(),
];

const cutWords = (shown: number, all: number, what: string) =>
  all > shown ? ` The ${shown} of ${plural(all, what)} that most gear takes are drawn.` : "";

async function webOfPart(id: string, signal: AbortSignal): Promise<Web> {
  const answer = await showRecord(id, signal);
  const uses = shownLinks(answer, "USES", "in").slice(0, most);
  const offers = shownLinks(answer, "OFFERS", "in").slice(0, most);
  const suppliers = unique(
    offers.map((link) => ({ id: link.from.id, name: link.from.name, note: priceOf(link) })),
  );
  const { name } = answer.record;
  return {
    gear: uses.map(({ from }) => from),
    parts: [{ id, name }],
    suppliers,
    takes: uses.map((link) => [link.from.id, id] as const),
    sold: suppliers.map((supplier) => [id, supplier.id] as const),
    picked: id,
    words: `${name} is taken by ${plural(uses.length, "model")} and sold by ${suppliers.length === 0 ? "nobody" : plural(suppliers.length, "supplier")}${suppliers.length === 1 ? ": one source only" : ""}.`,
  };
}

const matrixNow = async (signal: AbortSignal) =>
  (await post<CommonalityAnswer>("/api/commonality", {}, signal)).matrix;

async function webOfModel(id: string, signal: AbortSignal): Promise<Web> {
  const matrix = await matrixNow(signal);
  const row = matrix.models.findIndex((model) => model.id === id);
  const columns = matrix.cells
    .filter(([model]) => model === row)
    .map(([, column]) => column)
    .sort((a, b) => (matrix.parts[b]?.models ?? 0) - (matrix.parts[a]?.models ?? 0));
  const parts = columns.slice(0, most).flatMap((column) => matrix.parts[column] ?? []);
  const records = await Promise.all(parts.map((part) => showRecord(part.id, signal)));
  const offers = records.flatMap((record) => shownLinks(record, "OFFERS", "in"));
  const suppliers = unique(offers.map(({ from }) => from));
  const sold = new Set(offers.map(({ to }) => to.id));
  const model = matrix.models[row];
  return {
    gear: model === undefined ? [] : [{ id, name: model.name }],
    parts: parts.map(({ id: part, name, description }) => ({ id: part, name, note: description })),
    suppliers,
    takes: parts.map((part) => [id, part.id] as const),
    sold: offers.map(({ from, to }) => [to.id, from.id] as const),
    picked: id,
    words: `${model?.name ?? "This model"} takes ${plural(columns.length, "part")}, sold by ${plural(suppliers.length, "supplier")} between them; ${plural(parts.filter((part) => !sold.has(part.id)).length, "part")} of those drawn nobody sells.${cutWords(parts.length, columns.length, "part")}`,
  };
}

async function webOfSupplier(id: string, signal: AbortSignal): Promise<Web> {
  const [answer, matrix] = await Promise.all([showRecord(id, signal), matrixNow(signal)]);
  const offers = shownLinks(answer, "OFFERS", "out");
  const columnOf = new Map(matrix.parts.map((part, column) => [part.id, column]));
  const wanted = offers
    .filter(({ to }) => columnOf.has(to.id))
    .sort(
      (a, b) =>
        (matrix.parts[columnOf.get(b.to.id) ?? -1]?.models ?? 0) -
        (matrix.parts[columnOf.get(a.to.id) ?? -1]?.models ?? 0),
    );
  const drawn = wanted.slice(0, most);
  const columns = new Map(drawn.map(({ to }) => [columnOf.get(to.id) ?? -1, to.id]));
  const takes = matrix.cells.flatMap(([row, column]) => {
    const part = columns.get(column);
    const model = matrix.models[row];
    return part === undefined || model === undefined ? [] : [[model.id, part] as const];
  });
  const gear = unique(
    takes.flatMap(([model]) => matrix.models.find(({ id: other }) => other === model) ?? []),
  ).slice(0, most);
  return {
    gear: gear.map(({ id: model, name }) => ({ id: model, name })),
    parts: drawn.map((link) => ({ id: link.to.id, name: link.to.name, note: priceOf(link) })),
    suppliers: [{ id, name: answer.record.name }],
    takes,
    sold: drawn.map(({ to }) => [to.id, id] as const),
    picked: id,
    words: `${answer.record.name} sells ${plural(wanted.length, "part")} our gear takes.${cutWords(drawn.length, wanted.length, "part")}`,
  };
}

/** What hangs together with one part, model or supplier. */
export const webOf = {
  part: webOfPart,
  model: webOfModel,
  supplier: webOfSupplier,
} as const;
