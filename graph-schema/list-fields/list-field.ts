import type { NodeLabel, RelationshipType } from "../catalogue.ts";
import type { HeaderSynonyms, Unit } from "../property.ts";

/** A column of a list that says how records hang together: no record has it as a property. */
export interface ListField {
  readonly owner: NodeLabel | RelationshipType;
  readonly property: string;
  readonly kind: "text" | "part-number" | "integer" | "real" | "interval";
  readonly meaning: string;
  readonly headers: HeaderSynonyms;
  readonly unit?: Unit;
  readonly min?: number;
  readonly max?: number;
  /** The kinds of list that may hold it; any that holds its owner if not given. */
  readonly onlyIn?: readonly string[];
  /** A name, in which a lone dash or "n/a" stands for nothing. */
  readonly isName?: boolean;
}
