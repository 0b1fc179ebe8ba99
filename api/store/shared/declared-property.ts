import {
  type NodeLabel,
  nodeDeclaration,
  type PropertyDeclaration,
} from "../../../graph-schema/index.ts";
import { Problem } from "../../errors/problem.ts";

/** A label's property by its name, as a query names it. Errors: `input-invalid` where it has none by that name. */
export function declaredProperty(label: NodeLabel, name: string): PropertyDeclaration {
  const { properties } = nodeDeclaration(label);
  const found = Object.hasOwn(properties, name) ? properties[name] : undefined;
  if (found !== undefined) return found;
  throw new Problem(
    "input-invalid",
    `A ${label} is listed by one of its own properties; received "${name.slice(0, 80)}". They are: ${Object.keys(properties).join(", ")}.`,
    { places: [{ pointer: `/${label}`, detail: "no such property" }] },
  );
}
