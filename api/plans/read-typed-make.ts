import type { TypedModel, TypedReading } from "../contract/what-if.contract.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { typedModels } from "./what-if/typed-models.ts";

/**
 * What would be understood of the lists of a make typed in on the spot: columns, rows taken and refused. Nothing is
 * written. Errors: `key-taken` (the make is on file), `columns-unmatched`, `file-empty` and the importer's others.
 */
export async function readTypedMake(store: GraphStore, typed: TypedModel): Promise<TypedReading> {
  const { lists } = await typedModels([typed], store);
  return { lists: [...lists] };
}
