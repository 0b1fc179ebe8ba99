import { type NodeLabel, nodeDeclaration } from "../../../graph-schema/index.ts";
import type { RecordsAnswer, RecordsRequest } from "../../contract/records.contract.ts";
import { Problem } from "../../errors/problem.ts";
import type { GraphStore, PropertyTest } from "../../store/graph-store.ts";
import { cautions } from "../cautions.ts";
import { groupDigits, plural } from "../words.ts";
import { labelByWord } from "./find-record.ts";
import { declaredOf, fieldsOf } from "./property-words.ts";
import { readValues } from "./read-values.ts";
import { RecordNames } from "./record-names.ts";

const usualLimit = 100;
const signs = {
  ">=": "at least",
  "<=": "at most",
  "~": "holds",
  "=": "equal",
  "!": "present",
} as const;

/** `massKg>=2 lb` as a test of the label's property. Errors: `input-invalid`. */
function testOf(label: NodeLabel, text: string): PropertyTest {
  const found = /^\s*(\w+)\s*(>=|<=|~|=|!)(.*)$/s.exec(text);
  const property = found?.[1] ?? "";
  const is = signs[(found?.[2] ?? "=") as keyof typeof signs];
  const value = (found?.[3] ?? "").trim();
  if (found === null || declaredOf(label)[property] === undefined) {
    throw new Problem(
      "input-invalid",
      `A condition is a property of ${label}, a sign (= ~ >= <= !) and a value; received "${text.slice(0, 80)}". Write it like "massKg>=2 kg"; the properties are ${Object.keys(declaredOf(label)).join(", ")}.`,
      { places: [{ pointer: "/where", detail: "not a condition" }] },
    );
  }
  if (is === "present") return { property, is };
  if (value === "") return { property, is: "absent" };
  if (is === "holds") return { property, is, value };
  const read = readValues(label, { [property]: value }).set[property];
  return read === undefined ? { property, is: "absent" } : { property, is, value: read };
}

/**
 * A page of the records of a label as the schema declares it, sorted and narrowed, each with what it belongs to.
 * Errors: `input-invalid` (label, property, condition).
 */
export async function listRecords(
  store: GraphStore,
  request: RecordsRequest,
): Promise<RecordsAnswer> {
  const label = labelByWord(request.label);
  const { offset = 0, limit = usualLimit, sort, text, where = [] } = request;
  const descending = sort?.startsWith("-") ?? false;
  const sortBy = descending ? sort?.slice(1) : sort;
  const page = await store.page({
    label,
    offset,
    limit,
    ...(sortBy === undefined || sortBy === "" ? {} : { sortBy, descending }),
    ...(text === undefined ? {} : { text }),
    where: (typeof where === "string" ? [where] : where).map((one) => testOf(label, one)),
  });
  const names = new RecordNames(store);
  names.learn(page);
  const rows = [];
  for (const node of page.nodes) rows.push(await names.document(node));
  return {
    label,
    meaning: nodeDeclaration(label).meaning,
    sentence:
      page.total === 0
        ? `No ${label} answers to this.`
        : `${plural(page.total, "record")} of ${label}${rows.length === page.total ? "" : `, ${groupDigits(offset + 1)} to ${groupDigits(offset + rows.length)} shown`}.`,
    total: page.total,
    offset,
    limit,
    sort: sort ?? null,
    columns: fieldsOf(label),
    rows,
    cautions: [...cautions],
  };
}
