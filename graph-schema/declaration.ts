import type { PropertyMap } from "./property.ts";

/**
 * A node label. `identifiedBy` says how a person tells two of them apart: a property name, or
 * `>TYPE` for the key of the node that the relationship TYPE leads to. The joined result is the node's key.
 */
export interface NodeDeclaration<N extends string = string, P extends PropertyMap = PropertyMap> {
  readonly label: N;
  readonly meaning: string;
  readonly identifiedBy: readonly string[];
  /** The property shown as the node's name. */
  readonly nameFrom: string;
  readonly properties: P;
}

export interface RelationshipDeclaration<
  T extends string = string,
  P extends PropertyMap = PropertyMap,
> {
  readonly type: T;
  readonly meaning: string;
  readonly from: readonly string[];
  readonly to: readonly string[];
  /** `one`: a node has at most one outgoing relationship of this type; `many`: any number. */
  readonly each: "one" | "many";
  /** What deleting the target does to the source: nothing to it, or it goes too. */
  readonly whenTargetGoes: "drop-link" | "drop-source";
  /** Properties that, with the two ends, tell parallel relationships apart (usually none). */
  readonly alsoBy?: readonly string[];
  readonly properties: P;
}

export const node = <const N extends string, const P extends PropertyMap>(
  declaration: NodeDeclaration<N, P>,
): NodeDeclaration<N, P> => declaration;

export const relationship = <const T extends string, const P extends PropertyMap>(
  declaration: RelationshipDeclaration<T, P>,
): RelationshipDeclaration<T, P> => declaration;
