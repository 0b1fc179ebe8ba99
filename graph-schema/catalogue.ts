import type { NodeDeclaration, RelationshipDeclaration } from "./declaration.ts";
import { crossing } from "./nodes/crossing.ts";
import { fittedItem } from "./nodes/fitted-item.ts";
import { importRun } from "./nodes/import-run.ts";
import { locker } from "./nodes/locker.ts";
import { maker } from "./nodes/maker.ts";
import { model } from "./nodes/model.ts";
import { order } from "./nodes/order.ts";
import { part } from "./nodes/part.ts";
import { requiredFunction } from "./nodes/required-function.ts";
import { serviceTask } from "./nodes/service-task.ts";
import { stockLot } from "./nodes/stock-lot.ts";
import { supplier } from "./nodes/supplier.ts";
import { vessel } from "./nodes/vessel.ts";
import type { RecordOf } from "./property.ts";
import { fittedOn, isModel, requiredOn, sailedBy, serves } from "./relationships/fitting.ts";
import { contains, interchangesWith, madeBy, supersededBy } from "./relationships/parts.ts";
import { consumes, serviced, serviceOf } from "./relationships/servicing.ts";
import { isWithin, lotOf, stowedIn } from "./relationships/stowing.ts";
import { offers, orderedFor, orderedFrom } from "./relationships/supplying.ts";
import { uses } from "./relationships/uses.ts";

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
  FITTED_ON: fittedOn,
  IS_MODEL: isModel,
  SERVES: serves,
  REQUIRED_ON: requiredOn,
  MADE_BY: madeBy,
  USES: uses,
  CONTAINS: contains,
  INTERCHANGES_WITH: interchangesWith,
  SUPERSEDED_BY: supersededBy,
  OFFERS: offers,
  STOWED_IN: stowedIn,
  LOT_OF: lotOf,
  IS_WITHIN: isWithin,
  SERVICE_OF: serviceOf,
  CONSUMES: consumes,
  SERVICED: serviced,
  SAILED_BY: sailedBy,
  ORDERED_FROM: orderedFrom,
  ORDERED_FOR: orderedFor,
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
