import {
  type NodeLabel,
  type RelationshipType,
  relationshipDeclaration,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";

/** Relationship types that may leave a node of this label. */
export const typesFrom = (label: NodeLabel): readonly RelationshipType[] =>
  relationshipTypeNames.filter((type) => relationshipDeclaration(type).from.includes(label));

/** Relationship types that may lead to a node of this label. */
export const typesTo = (label: NodeLabel): readonly RelationshipType[] =>
  relationshipTypeNames.filter((type) => relationshipDeclaration(type).to.includes(label));
