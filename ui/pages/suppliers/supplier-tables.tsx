import type { SuppliersAnswer } from "../../../api/contract/suppliers.contract.ts";
import { wholeText } from "../../components/figures.ts";
import { ScrollTable } from "../../components/scroll-table.tsx";
import { TierSign } from "../../components/signs.tsx";

/** Every supplier by its own reach. */
export function SupplierTable({ rows }: { readonly rows: SuppliersAnswer["suppliers"] }) {
  return (
    <ScrollTable caption="Suppliers by what they cover" captionHidden className="tall">
      <thead>
        <tr>
          <th scope="col">Supplier</th>
          <th scope="col" className="number">
            Items whole
          </th>
          <th scope="col" className="number">
            Items partly
          </th>
          <th scope="col" className="number">
            Parts
          </th>
          <th scope="col" className="number">
            Only source of
          </th>
          <th scope="col">Place</th>
          <th scope="col">Contact</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.supplier.id}>
            <th scope="row">{row.supplier.name}</th>
            <td className="number">{wholeText(row.gearWhole)}</td>
            <td className="number">{wholeText(row.gearPartly)}</td>
            <td className="number">{wholeText(row.parts)}</td>
            <td className="number">{wholeText(row.onlySourceOf)}</td>
            <td>{row.place === "" ? "unknown" : row.place}</td>
            <td className="wordy">{row.contact === "" ? "unknown" : row.contact}</td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
}

type Row = SuppliersAnswer["singleSource"][number] | SuppliersAnswer["unsold"][number];

const sourceOf = (row: Row): string =>
  "supplier" in row
    ? row.supplier.name
    : row.soldInside.length > 0
      ? `nobody singly; inside ${row.soldInside.join(", ")}`
      : "nobody";

/** Parts with one source or none, the ones that stop most first. */
export function StakeTable({
  caption,
  rows,
}: {
  readonly caption: string;
  readonly rows: readonly Row[];
}) {
  return (
    <ScrollTable caption={caption} captionHidden className="tall">
      <thead>
        <tr>
          <th scope="col">Part</th>
          <th scope="col">Description</th>
          <th scope="col">Tier</th>
          <th scope="col" className="number">
            Stops
          </th>
          <th scope="col" className="number">
            Fitted in
          </th>
          <th scope="col">Sold by</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.part.id}>
            <th scope="row">{row.part.name}</th>
            <td className="wordy">{row.description}</td>
            <td>
              <TierSign tier={row.tier} />
            </td>
            <td className="number">{wholeText(row.itemsStopped)}</td>
            <td className="number">{wholeText(row.items)}</td>
            <td className="wordy">{sourceOf(row)}</td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
}

/** Pairs of suppliers that sell the same parts: where one can stand in for the other. */
export function OverlapTable({ rows }: { readonly rows: SuppliersAnswer["overlaps"] }) {
  return (
    <ScrollTable caption="Suppliers that sell the same parts" captionHidden className="tall">
      <thead>
        <tr>
          <th scope="col">Supplier</th>
          <th scope="col">and</th>
          <th scope="col" className="number">
            Shared parts
          </th>
          <th scope="col" className="number">
            Of what either sells
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.a.id + row.b.id}>
            <th scope="row">{row.a.name}</th>
            <td>{row.b.name}</td>
            <td className="number">{wholeText(row.shared)}</td>
            <td className="number">{`${Math.round(100 * row.jaccard)} %`}</td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
}
