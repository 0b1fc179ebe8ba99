import type { CommonalityAnswer } from "../../contract/commonality.contract.ts";
import type { PartClasses } from "../../scoring/classes/part-classes.ts";
import { blockOrder } from "../../scoring/commonality/block-order.ts";
import type { FittedScope } from "../../scoring/commonality/fitted-scope.ts";
import { inverseOf } from "../../scoring/commonality/incidence.ts";
import type { GearPicture } from "../../scoring/snapshot/snapshot.ts";
import { modelReference } from "../kit/kit-lines.ts";

/** Models by part classes, rows and columns in the order that draws shared parts as blocks. */
export function partsMatrix(
  snapshot: GearPicture,
  classes: PartClasses,
  scope: FittedScope,
): CommonalityAnswer["matrix"] {
  const order = blockOrder(scope.all);
  const users = inverseOf(scope.all);
  const positionOf = new Int32Array(scope.partClasses.length);
  order.parts.forEach((column, position) => {
    positionOf[column] = position;
  });
  const cells: [number, number, number][] = [];
  order.models.forEach((row, position) => {
    for (let i = scope.all.start[row] ?? 0; i < (scope.all.start[row + 1] ?? 0); i++) {
      const column = scope.all.parts[i] ?? 0;
      cells.push([position, positionOf[column] ?? 0, scope.quantity[i] ?? 1]);
    }
  });
  return {
    models: [...order.models].map((row) => {
      const model = scope.models[row] ?? 0;
      return {
        ...modelReference(snapshot, model),
        category: snapshot.models.category[model] ?? "",
        maker: snapshot.makers.name[snapshot.models.maker[model] ?? -1] ?? "",
        items: scope.items[row] ?? 0,
        parts: (scope.all.start[row + 1] ?? 0) - (scope.all.start[row] ?? 0),
      };
    }),
    parts: [...order.parts].map((column) => {
      const part = classes.members[scope.partClasses[column] ?? -1]?.[0] ?? 0;
      return {
        id: String(snapshot.parts.id[part] ?? ""),
        name: snapshot.parts.partNumber[part] ?? "",
        description: snapshot.parts.description[part] ?? "",
        maker: snapshot.makers.name[snapshot.parts.maker[part] ?? -1] ?? "",
        models: (users.start[column + 1] ?? 0) - (users.start[column] ?? 0),
      };
    }),
    cells,
  };
}
