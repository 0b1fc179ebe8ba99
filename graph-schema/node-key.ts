import {
  type NodeLabel,
  nodeDeclaration,
  nodeLabelNames,
  type Properties,
  type RelationshipType,
  relationshipDeclaration,
} from "./catalogue.ts";
import { joinKey, keyPiece, type NodeKey } from "./identity.ts";

const ownerOf = (piece: string): RelationshipType | undefined =>
  piece.startsWith(">") ? (piece.slice(1) as RelationshipType) : undefined;

/** Relationships whose target is part of what a node of this label is told apart by. */
export const identifyingTypes = (label: NodeLabel): readonly RelationshipType[] =>
  nodeDeclaration(label).identifiedBy.flatMap((piece) => ownerOf(piece) ?? []);

/** The labels whose nodes are told apart by where a relationship of theirs leads, if it may lead to this label. */
export const labelsToldApartBy = (
  label: NodeLabel,
): readonly { readonly label: NodeLabel; readonly type: RelationshipType }[] =>
  nodeLabelNames.flatMap((from) =>
    identifyingTypes(from)
      .filter((type) => relationshipDeclaration(type).to.includes(label))
      .map((type) => ({ label: from, type })),
  );

/**
 * The key of a node, from its properties and the keys of the nodes it hangs on; what is absent counts as "".
 *
 * @param ownerKey key of the node that a relationship of this type leads to
 */
export const nodeKey = (
  label: NodeLabel,
  properties: Properties,
  ownerKey: (type: RelationshipType) => NodeKey | undefined,
): NodeKey =>
  joinKey(
    ...nodeDeclaration(label).identifiedBy.map((piece) => {
      const type = ownerOf(piece);
      return type === undefined
        ? keyPiece(String(properties[piece] ?? ""))
        : (ownerKey(type) ?? "");
    }),
  );
