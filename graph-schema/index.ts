export {
  groupThousands,
  massIn,
  massUnit,
  moneyDigits,
  roomIn,
  roomUnit,
  type UnitSystem,
} from "./amounts.ts";
export * from "./catalogue.ts";
export type { NodeDeclaration, RelationshipDeclaration } from "./declaration.ts";
export { neo4jConstraints } from "./derive/neo4j-constraints.ts";
export { quoteName, type SqliteTable, sqliteTables } from "./derive/sqlite-tables.ts";
export * from "./identity.ts";
export type { ListField } from "./list-fields/list-field.ts";
export { listFields } from "./list-fields/list-fields.ts";
export { decimalsOtherThanTwo, minorDigits } from "./minor-digits.ts";
export {
  gearNeeds,
  type NeededName,
  type NeedName,
  type NeedRule,
  neededName,
  needNames,
  needOf,
} from "./needs.ts";
export { identifyingTypes, labelsToldApartBy, nodeKey } from "./node-key.ts";
export { type Tier, tiers } from "./nodes/required-function.ts";
export type { ColumnKind, HeaderLanguage, PropertyDeclaration, Unit } from "./property.ts";
export { rarityClasses, rateBases, rateSources } from "./relationships/failure-evidence.ts";
export { failureEffects } from "./relationships/uses.ts";
