import type { KnownGraph } from "../change-set.ts";
import { LinkTable } from "./link-table.ts";
import { NodeTable } from "./node-table.ts";
import type { Fields } from "./row-fields.ts";

/** The tables of all nodes and relationships that a file may speak of. */
export class RecordTables {
  readonly vessels: NodeTable;
  readonly makers: NodeTable;
  readonly models: NodeTable;
  readonly parts: NodeTable;
  readonly functions: NodeTable;
  readonly items: NodeTable;
  readonly suppliers: NodeTable;
  readonly lockers: NodeTable;
  readonly lots: NodeTable;
  readonly tasks: NodeTable;
  readonly crossings: NodeTable;
  readonly orders: NodeTable;
  readonly isModel: LinkTable;
  readonly serves: LinkTable;
  readonly uses: LinkTable;
  readonly offers: LinkTable;
  readonly consumes: LinkTable;
  readonly serviced: LinkTable;
  readonly sailedBy: LinkTable;
  readonly interchanges: LinkTable;
  readonly supersedes: LinkTable;
  readonly contains: LinkTable;
  readonly orderedFrom: LinkTable;

  constructor(graph: KnownGraph, fields: Fields) {
    this.vessels = new NodeTable("Vessel", graph, fields.filled("Vessel", ["name"]));
    this.makers = new NodeTable("Maker", graph, []);
    this.models = new NodeTable("Model", graph, fields.filled("Model", ["designation"]));
    this.parts = new NodeTable("Part", graph, fields.filled("Part", ["partNumber"]));
    this.functions = new NodeTable(
      "RequiredFunction",
      graph,
      fields.filled("RequiredFunction", ["name"]),
    );
    this.items = new NodeTable("FittedItem", graph, fields.filled("FittedItem", ["position"]));
    this.suppliers = new NodeTable("Supplier", graph, fields.filled("Supplier", ["name"]));
    this.lockers = new NodeTable("Locker", graph, fields.filled("Locker", ["name"]));
    this.lots = new NodeTable("StockLot", graph, fields.filled("StockLot"));
    this.tasks = new NodeTable("ServiceTask", graph, fields.filled("ServiceTask", ["name"]));
    this.crossings = new NodeTable("Crossing", graph, fields.filled("Crossing", ["name"]));
    this.orders = new NodeTable("Order", graph, fields.filled("Order", ["reference", "expected"]));
    const link = (type: LinkTable["type"], from: NodeTable, to: NodeTable): LinkTable =>
      new LinkTable(type, from, to, graph, fields.filled(type));
    this.isModel = link("IS_MODEL", this.items, this.models);
    this.serves = link("SERVES", this.items, this.functions);
    this.uses = link("USES", this.models, this.parts);
    this.offers = link("OFFERS", this.suppliers, this.parts);
    this.consumes = link("CONSUMES", this.tasks, this.parts);
    this.serviced = link("SERVICED", this.items, this.tasks);
    this.sailedBy = link("SAILED_BY", this.crossings, this.vessels);
    this.interchanges = link("INTERCHANGES_WITH", this.parts, this.parts);
    this.supersedes = link("SUPERSEDED_BY", this.parts, this.parts);
    this.contains = link("CONTAINS", this.parts, this.parts);
    this.orderedFrom = link("ORDERED_FROM", this.orders, this.suppliers);
  }

  /** Every table of nodes, owners before what hangs on them. */
  get nodeTables(): readonly NodeTable[] {
    return [
      this.vessels,
      this.makers,
      this.models,
      this.parts,
      this.functions,
      this.items,
      this.suppliers,
      this.lockers,
      this.lots,
      this.tasks,
      this.crossings,
      this.orders,
    ];
  }

  get linkTables(): readonly LinkTable[] {
    return [
      this.serves,
      this.uses,
      this.offers,
      this.consumes,
      this.serviced,
      this.sailedBy,
      this.interchanges,
      this.supersedes,
      this.contains,
      this.orderedFrom,
    ];
  }
}
