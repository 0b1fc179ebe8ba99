import { useMemo } from "react";
import type { ImportAnswer } from "../../../api/contract/import.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { ScrollTable } from "../../components/scroll-table.tsx";
import { keepOnly, propertyGroups } from "./property-options.ts";

type Column = ImportAnswer["columns"][number];

const confidenceWord = (column: Column): string => {
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
  readonly columns: readonly Column[];
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
  return (
    <ScrollTable caption="How each column was understood" captionHidden className="columns">
      <thead>
        <tr>
          <th scope="col" className="stick">
            In the file
          </th>
          <th scope="col">Understood as</th>
          <th scope="col">How surely</th>
          <th scope="col">Meaning</th>
        </tr>
      </thead>
      <tbody>
        {columns.map((column) => (
          <tr key={column.column}>
            <th scope="row" className="stick">
              {column.header === "" ? `column ${column.column + 1}` : column.header}
              <span className="sample">{column.sample.slice(0, 3).join(" · ")}</span>
            </th>
            <td>
              {isFixed ? (
                (column.property ?? "kept only")
              ) : (
                <Choice
                  label={`Meaning of column ${column.header}`}
                  labelHidden
                  value={column.property ?? keepOnly}
                  groups={groups}
                  onChange={(id) => onMap(column.header, id === keepOnly ? null : id)}
                />
              )}
            </td>
            <td>
              <span className={`surety surety-${confidenceWord(column).replace(/ .*/, "")}`}>
                <svg width="48" height="8" aria-hidden="true" className="surety-bar">
                  <rect width="48" height="8" className="bar-lane" />
                  <rect width={48 * column.confidence} height="8" className="bar" />
                </svg>
                {confidenceWord(column)}
              </span>
            </td>
            <td className="wordy">{column.meaning ?? "Stays with its row, is not interpreted"}</td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
}
