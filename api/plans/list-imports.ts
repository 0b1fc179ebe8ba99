import type { ImportHistory } from "../contract/import.contract.ts";
import type { GraphStore } from "../store/graph-store.ts";

const page = 500;

const textOf = (value: unknown): string => (typeof value === "string" ? value : "");
const numberOf = (value: unknown): number => (typeof value === "number" ? value : 0);

/** Every file taken in, newest first, with its rows and whether it was undone. */
export async function listImports(store: GraphStore): Promise<ImportHistory> {
  const imports: ImportHistory["imports"] = [];
  for (let offset = 0; ; offset += page) {
    const nodes = await store.list("Import", offset, page);
    for (const { id, properties } of nodes) {
      imports.push({
        id,
        name: textOf(properties["fileName"]) || textOf(properties["reference"]),
        at: textOf(properties["at"]),
        who: textOf(properties["who"]),
        read: numberOf(properties["read"]),
        accepted: numberOf(properties["accepted"]),
        rejected: numberOf(properties["rejected"]),
        undone: textOf(properties["undone"]) || null,
      });
    }
    if (nodes.length < page) break;
  }
  return { imports: imports.sort((a, b) => b.at.localeCompare(a.at) || b.id.localeCompare(a.id)) };
}
