import { useMemo } from "react";
import type { ImportAnswer } from "../../../api/contract/import.contract.ts";
import { Choice } from "../../components/choice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { keepOnly, propertyGroups } from "./property-options.ts";

type FileColumn = ImportAnswer["columns"][number];

const confidenceWord = (column: FileColumn): string => {
  if (column.byHand) return "by hand";
  if (column.property === null) return "kept only";
  if (column.confidence >= 0.9) return "sure";
  return column.confidence >= 0.6 ? "likely" : "a guess";
};

/** Each column of the file, what it was understood as and how surely, and a list to map it by hand. */
export function ColumnTable({
  columns,
  isFixed,
  onMap,
}: {
  readonly columns: readonly FileColumn[];
  readonly isFixed: boolean;
  readonly onMap: (header: string, property: string | null) => void;
}) {
  const groups = useMemo(() => {
    const known = propertyGroups();
    const ids = new Set(known.flatMap((group) => group.options.map((option) => option.id)));
    const others = columns.flatMap((column) =>
      column.property === null || ids.has(column.property)
        ? []
        : [
            {
              id: column.property,
              name: column.property,
              ...(column.meaning === undefined ? {} : { meaning: column.meaning }),
            },
          ],
    );
    return others.length === 0 ? known : [...known, { name: "Other", options: others }];
  }, [columns]);
  const table: readonly Column<FileColumn>[] = [
    {
      id: "header",
      name: "In the file",
      kind: "name",
      className: "stick",
      cell: (column) => (
        <>
          {column.header === "" ? `column ${column.column + 1}` : column.header}
          <span className="sample">{column.sample.slice(0, 3).join(" · ")}</span>
        </>
      ),
    },
    {
      id: "property",
      name: "Understood as",
      cell: (column) =>
        isFixed ? (
          (column.property ?? "kept only")
        ) : (
          <Choice
            label={`Meaning of column ${column.header}`}
            labelHidden
            value={column.property ?? keepOnly}
            groups={groups}
            onChange={(id) => onMap(column.header, id === keepOnly ? null : id)}
          />
        ),
    },
    {
      id: "surety",
      name: "How surely",
      cell: (column) => (
        <span className={`surety surety-${confidenceWord(column).replace(/ .*/, "")}`}>
          <svg width="48" height="8" aria-hidden="true" className="surety-bar">
            <rect width="48" height="8" className="bar-lane" />
            <rect width={48 * column.confidence} height="8" className="bar" />
          </svg>
          {confidenceWord(column)}
        </span>
      ),
    },
    {
      id: "meaning",
      name: "Meaning",
      kind: "wordy",
      cell: (column) => column.meaning ?? "Stays with its row, is not interpreted",
    },
  ];
  return (
    <DataTable
      caption="How each column was understood"
      className="columns"
      columns={table}
      rows={columns}
      rowKey={(column) => String(column.column)}
    />
  );
}
