import type { NodeId } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { ExportListName } from "./export-columns.ts";
import type { ExportRow } from "./export-row.ts";
import { flatRows, looseRows } from "./flat-rows.ts";
import type { GraphView } from "./graph-view.ts";
import { interchangeRows, kitRows, legRows, orderRows, supersessionRows } from "./pair-rows.ts";
import { itemRecords, lockerFields, modelRecords, partFields, partRecords } from "./row-pieces.ts";

function gearRows(view: GraphView): ExportRow[] {
  const rows = view.all("FittedItem").flatMap((item) => {
    const served = view.from("SERVES", item.id).map((link) => view.node(link.to));
    return (served.length === 0 ? [undefined] : served).map(
      (need): ExportRow => ({ records: { ...itemRecords(view, item), RequiredFunction: need } }),
    );
  });
  return rows;
}

function partsRows(view: GraphView): ExportRow[] {
  return view.all("Model").flatMap((model) =>
    view.from("USES", model.id).map((uses): ExportRow => {
      const part = view.node(uses.to);
      return {
        records: { ...modelRecords(view, model), Part: part, USES: uses },
        fields: partFields(view, part),
      };
    }),
  );
}

const offersRows = (view: GraphView): ExportRow[] =>
  view.all("Supplier").flatMap((supplier) =>
    view.from("OFFERS", supplier.id).map(
      (offer): ExportRow => ({
        records: { Supplier: supplier, OFFERS: offer, ...partRecords(view, view.node(offer.to)) },
      }),
    ),
  );

const stockRows = (view: GraphView): ExportRow[] =>
  view.all("StockLot").map(
    (lot): ExportRow => ({
      records: { StockLot: lot, ...partRecords(view, view.one("LOT_OF", lot.id)) },
      fields: lockerFields(view, view.one("STOWED_IN", lot.id)),
    }),
  );

const functionRows = (view: GraphView): ExportRow[] =>
  view.all("RequiredFunction").map(
    (need): ExportRow => ({
      records: { RequiredFunction: need, Vessel: view.one("REQUIRED_ON", need.id) },
    }),
  );

const lockerRows = (view: GraphView): ExportRow[] =>
  view
    .all("Locker")
    .map(
      (locker): ExportRow => ({ records: { Locker: locker }, fields: lockerFields(view, locker) }),
    );

function serviceRows(view: GraphView): ExportRow[] {
  return view.all("ServiceTask").flatMap((task) => {
    const model = view.one("SERVICE_OF", task.id);
    const common = { ServiceTask: task, Model: model, Maker: view.one("MADE_BY", model?.id) };
    const consumed = view.from("CONSUMES", task.id).map((link): ExportRow => {
      const part = view.node(link.to);
      return {
        records: { ...common, Part: part, CONSUMES: link },
        fields: partFields(view, part),
      };
    });
    const done = view.to("SERVICED", task.id).map((link): ExportRow => {
      const item = view.node(link.from);
      const vessel = view.one("FITTED_ON", link.from);
      return { records: { ...common, FittedItem: item, Vessel: vessel, SERVICED: link } };
    });
    const rows = [...consumed, ...done];
    return rows.length === 0 ? [{ records: common }] : rows;
  });
}

function crossingRows(view: GraphView): ExportRow[] {
  return view.all("Crossing").flatMap((crossing) => {
    const vessels: readonly (LinkRecord | undefined)[] = view.from("SAILED_BY", crossing.id);
    return (vessels.length === 0 ? [undefined] : vessels).map(
      (link): ExportRow => ({
        records: { Crossing: crossing, Vessel: nodeAt(view, link?.to) },
      }),
    );
  });
}

const nodeAt = (view: GraphView, id: NodeId | undefined): NodeRecord | undefined =>
  id === undefined ? undefined : view.node(id);

/** How each list's rows are drawn from the graph. */
export const exportRows: Readonly<Record<ExportListName, (view: GraphView) => ExportRow[]>> = {
  flat: flatRows,
  functions: functionRows,
  gear: gearRows,
  loose: looseRows,
  parts: partsRows,
  suppliers: (view) =>
    view.all("Supplier").map((supplier) => ({ records: { Supplier: supplier } })),
  offers: offersRows,
  lockers: lockerRows,
  stock: stockRows,
  services: serviceRows,
  crossings: crossingRows,
  legs: legRows,
  interchange: interchangeRows,
  supersession: supersessionRows,
  kits: kitRows,
  orders: orderRows,
};
