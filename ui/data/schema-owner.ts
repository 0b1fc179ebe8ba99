/** A property of a record as its field needs it: made from `graph-schema` when the screen is built. */
export interface SchemaProperty {
  readonly name: string;
  readonly kind: string;
  readonly meaning: string;
  readonly required: boolean;
  readonly unit?: string;
  readonly choices?: readonly string[];
  readonly min?: number;
  readonly max?: number;
}

/** A node label or relationship type with its properties. */
export interface SchemaOwner {
  readonly owner: string;
  readonly isLink: boolean;
  readonly meaning: string;
  /** Of labels: the property shown as a record's name. */
  readonly nameFrom?: string;
  readonly properties: readonly SchemaProperty[];
  /** What only a column of a list says of it, such as the other record of a pair. */
  readonly listFields: readonly Pick<SchemaProperty, "name" | "unit" | "meaning">[];
}
