import type { NodeDeclaration, RelationshipDeclaration } from "./declaration.ts";
import { fittedItem, maker, model, requiredFunction, vessel } from "./nodes/gear.ts";
import { locker, part, serviceTask, stockLot, supplier } from "./nodes/parts.ts";
import { crossing, importRun, order } from "./nodes/passages.ts";
import type { RecordOf } from "./property.ts";
import * as links from "./relationships/all.ts";

/** Every node label, once. Order is that of creation: a node's owners stand before it. */
export const nodeLabels = {
  Vessel: vessel,
  Maker: maker,
  Model: model,
  Part: part,
  RequiredFunction: requiredFunction,
  FittedItem: fittedItem,
  Supplier: supplier,
  Locker: locker,
  StockLot: stockLot,
  ServiceTask: serviceTask,
  Crossing: crossing,
  Order: order,
  Import: importRun,
} as const;

/** Every relationship type, once. */
export const relationshipTypes = {
  FITTED_ON: links.fittedOn,
  IS_MODEL: links.isModel,
  SERVES: links.serves,
  REQUIRED_ON: links.requiredOn,
  MADE_BY: links.madeBy,
  USES: links.uses,
  CONTAINS: links.contains,
  INTERCHANGES_WITH: links.interchangesWith,
  SUPERSEDED_BY: links.supersededBy,
  OFFERS: links.offers,
  STOWED_IN: links.stowedIn,
  LOT_OF: links.lotOf,
  IS_WITHIN: links.isWithin,
  SERVICE_OF: links.serviceOf,
  CONSUMES: links.consumes,
  SERVICED: links.serviced,
  SAILED_BY: links.sailedBy,
  ORDERED_FROM: links.orderedFrom,
} as const;

export type NodeLabel = keyof typeof nodeLabels;
export type RelationshipType = keyof typeof relationshipTypes;
export type NodeProperties<L extends NodeLabel> = RecordOf<(typeof nodeLabels)[L]["properties"]>;
export type RelationshipProperties<T extends RelationshipType> = RecordOf<
  (typeof relationshipTypes)[T]["properties"]
>;
/** A property value as the graph holds it (dates as ISO text, documents as plain JSON). */
export type PropertyValue =
  | string
  | number
  | boolean
  | readonly unknown[]
  | { readonly [k: string]: unknown };
export type Properties = Readonly<Record<string, PropertyValue>>;

export const nodeLabelNames = Object.keys(nodeLabels) as readonly NodeLabel[];
export const relationshipTypeNames = Object.keys(relationshipTypes) as readonly RelationshipType[];
export const nodeDeclaration = (label: NodeLabel): NodeDeclaration => nodeLabels[label];
export const relationshipDeclaration = (type: RelationshipType): RelationshipDeclaration =>
  relationshipTypes[type];
