import { describe, expect, it } from "vitest";
import { headerCurrency, headerUnit } from "../../importers/columns/header-units.ts";
import { matchColumns, targets } from "../../importers/index.ts";

const match = (...header: readonly string[]) => {
  const { kind, columns } = matchColumns({ header, firstOfName: header.map((_, at) => at) });
  return { kind, targets: columns.map(({ target }) => target) };
};

describe("matching columns", () => {
  it("reads names as programs write them", () => {
    expect(match("PartNumber", "Mfr", "QtyOnBoard", "Bin", "ExpiryDate", "WeightKg")).toEqual({
      kind: "stock",
      targets: [
        "Part.partNumber",
        "Maker.name",
        "StockLot.quantity",
        "Locker.name",
        "StockLot.expires",
        "Part.massKg",
      ],
    });
    expect(match("vessel_name", "item_position", "maker", "model", "part_number", "qty")).toEqual({
      kind: "flat",
      targets: [
        "Vessel.name",
        "FittedItem.position",
        "Maker.name",
        "Model.designation",
        "Part.partNumber",
        "USES.quantity",
      ],
    });
  });

  it("prefers the plainer of two names for one thing and never takes a running number for gear", () => {
    expect(match("Item No", "Part No", "Maker", "Stock", "Location").targets).toEqual([
      undefined,
      "Part.partNumber",
      "Maker.name",
      "StockLot.quantity",
      "Locker.name",
    ]);
  });

  it("tells the supplier's number from the maker's", () => {
    expect(
      match("Manufacturer", "Manufacturer Part Number", "Vendor", "Supplier part number").targets,
    ).toEqual(["Maker.name", "Part.partNumber", "Supplier.name", "OFFERS.supplierCode"]);
  });

  it("gives a slip of the pen less confidence than the word itself", () => {
    const { columns } = matchColumns({
      header: ["Part number", "Suplier", "Price"],
      firstOfName: [0, 1, 2],
    });
    expect(columns[1]).toMatchObject({ target: "Supplier.name" });
    expect(columns[1]?.confidence).toBeLessThan(0.8);
    expect(columns[0]?.confidence).toBe(1);
  });

  it("finds units and currencies in headers", () => {
    const mass = targets.get("Part.massKg");
    if (mass === undefined) throw new Error("no such target");
    const units = ["Weight (g)", "Gewicht in g", "Weight g", "Weight", "Weight (approx)"];
    expect(units.map((header) => headerUnit(header, mass))).toEqual([
      "g",
      "g",
      "g",
      undefined,
      undefined,
    ]);
    const currency = (header: string) => headerCurrency(header, undefined)?.currency;
    expect(
      ["Price (EUR)", "Preis €", "Unit price USD", "unit_price_gbp", "Price"].map(currency),
    ).toEqual(["EUR", "EUR", "USD", "GBP", undefined]);
    expect(headerCurrency("Price ($)", undefined)).toEqual({ currency: "USD", isPresumed: true });
    expect(headerCurrency("Price ($)", "AUD")).toEqual({ currency: "AUD", isPresumed: false });
  });
});
