import { Problem } from "../../api/errors/problem.ts";
import { normaliseHeader } from "../normalise-header.ts";
import type { Table } from "../reading/read-table.ts";
import { type Target, targets } from "../targets.ts";

/**
 * Columns that a person has mapped by hand, by index; undefined = left uninterpreted.
 * Throws `input-invalid` for a name no column has, a property that does not exist, or one that two columns claim.
 */
export function fixedColumns(
  table: Pick<Table, "header">,
  mapping: Readonly<Record<string, string | null>>,
): Map<number, Target | undefined> {
  const fixed = new Map<number, Target | undefined>();
  const taken = new Map<string, string>();
  for (const [name, id] of Object.entries(mapping)) {
    const column = table.header.findIndex(
      (header) => header === name || normaliseHeader(header) === normaliseHeader(name),
    );
    if (column === -1) {
      throw new Problem(
        "input-invalid",
        `A mapping must name a column of the file; "${name}" is none of: ${table.header.join(", ")}. Correct the name.`,
      );
    }
    const target = id === null ? undefined : targets.get(id);
    if (id !== null && target === undefined) {
      throw new Problem(
        "input-invalid",
        `A column must be mapped to a property such as "Part.partNumber"; "${id}" is none. ${choiceFor(id)}`,
      );
    }
    const other = id === null ? undefined : taken.get(id);
    if (other !== undefined) {
      throw new Problem(
        "input-invalid",
        `A property takes one column; "${other}" and "${name}" are both mapped to ${id}. Map one of them to nothing.`,
      );
    }
    if (id !== null) taken.set(id, name);
    fixed.set(column, target);
  }
  return fixed;
}

/** The properties of the owner somebody named, else all owners. */
function choiceFor(id: string): string {
  const owner = id.split(".")[0]?.toLowerCase();
  const all = [...targets.values()];
  const own = all.filter((target) => target.owner.toLowerCase() === owner).map((t) => t.id);
  if (own.length > 0) return `Choose one of: ${own.join(", ")}.`;
  const owners = [...new Set(all.map((target) => target.owner))].join(", ");
  return `Write it with what it belongs to, one of ${owners}, and its name.`;
}
