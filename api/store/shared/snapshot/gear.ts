import { type NeedName, neededName, needNames, tiers } from "../../../../graph-schema/index.ts";
import type { NeedColumns, Snapshot } from "../../../scoring/snapshot/snapshot.ts";
import { codes, days, numbers, texts } from "./cells.ts";
import type { GraphRows, NodeRows } from "./graph-rows.ts";

const passageTier = tiers.indexOf("passage");

/** Fitted items, the functions they serve and the models they are of. */
export function readGear(graph: GraphRows, vessels: NodeRows, makers: NodeRows) {
  const functions = graph.nodes("RequiredFunction", ["name", "tier", "need"]);
  const models = graph.nodes("Model", [
    "designation",
    "category",
    "massKg",
    "priceMinor",
    "currency",
    ...needNames,
  ]);
  const items = graph.nodes("FittedItem", [
    "position",
    "hoursPerDay",
    "operationsPerDay",
    "fittedOn",
    "hoursRun",
    ...needNames.map(neededName),
  ]);
  const columns: Pick<Snapshot, "functions" | "models" | "items" | "serves"> = {
    functions: {
      id: functions.id,
      name: texts(functions.rows, 0),
      vessel: graph.reference("REQUIRED_ON", functions, vessels),
      tier: codes(functions.rows, 1, tiers, 0, passageTier),
      need: Uint16Array.from(numbers(functions.rows, 2), (need) => (Number.isNaN(need) ? 1 : need)),
    },
    models: {
      id: models.id,
      designation: texts(models.rows, 0),
      category: texts(models.rows, 1),
      maker: graph.reference("MADE_BY", models, makers),
      can: needColumns(models, 5),
      massKg: numbers(models.rows, 2),
      priceMinor: numbers(models.rows, 3),
      currency: texts(models.rows, 4),
    },
    items: {
      id: items.id,
      position: texts(items.rows, 0),
      vessel: graph.reference("FITTED_ON", items, vessels),
      model: graph.reference("IS_MODEL", items, models),
      hoursPerDay: numbers(items.rows, 1),
      operationsPerDay: numbers(items.rows, 2),
      fittedOnDay: days(items.rows, 3),
      hoursRun: numbers(items.rows, 4),
      needs: needColumns(items, 5),
    },
    serves: graph.adjacency("SERVES", items, functions).adjacency,
  };
  return { models, items, columns };
}

/** The declared needs' columns of rows, the first of them at `from`. */
const needColumns = ({ rows }: NodeRows, from: number): NeedColumns =>
  Object.fromEntries(needNames.map((name, at) => [name, numbers(rows, from + at)])) as Record<
    NeedName,
    Float64Array
  >;

/** Services of the models, the parts they take, and when each was last done on each item. */
export function readServices(
  graph: GraphRows,
  models: NodeRows,
  items: NodeRows,
  parts: NodeRows,
): Pick<Snapshot, "services" | "consumes" | "serviced"> {
  const services = graph.nodes("ServiceTask", [
    "name",
    "intervalHours",
    "intervalMonths",
    "intervalOperations",
  ]);
  const consumes = graph.adjacency("CONSUMES", services, parts, ["quantity", "lossChance"]);
  const serviced = graph.adjacency("SERVICED", items, services, ["lastDone", "lastDoneHours"]);
  return {
    services: {
      id: services.id,
      name: texts(services.rows, 0),
      model: graph.reference("SERVICE_OF", services, models),
      intervalHours: numbers(services.rows, 1),
      intervalMonths: numbers(services.rows, 2),
      intervalOperations: numbers(services.rows, 3),
    },
    consumes: {
      ...consumes.adjacency,
      quantity: numbers(consumes.rows, 0),
      lossChance: numbers(consumes.rows, 1),
    },
    serviced: {
      ...serviced.adjacency,
      lastDoneDay: days(serviced.rows, 0),
      lastDoneHours: numbers(serviced.rows, 1),
    },
  };
}
