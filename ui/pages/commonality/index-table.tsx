import type { CommonalityAnswer } from "../../../api/contract/commonality.contract.ts";
import { indexText, wholeText } from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { indexColumns } from "./index-words.ts";

interface Row {
  readonly name: string;
  readonly kind: "row-whole" | "row-category" | "row-vessel";
  readonly indices: CommonalityAnswer["whole"];
}

const columns: readonly Column<Row>[] = [
  { id: "gear", name: "Gear", kind: "name", cell: (row) => row.name },
  ...indexColumns.map(
    ({ key, name, isRatio, meaning, formula }): Column<Row> => ({
      id: key,
      name,
      kind: "number",
      cell: ({ indices }) => {
        const value = indices[key];
        return isRatio ? indexText(value) : value === null ? "–" : wholeText(value);
      },
      value: ({ indices }) => indices[key],
      ...(formula === undefined
        ? {}
        : {
            why: ({ name: of, indices }: Row) => ({
              what: `${of}: ${indices[key] === null ? "not known" : indexText(indices[key])}. ${meaning}`,
              how: formula,
              rests: `${indices.lines} lines of ${indices.models} parts lists with ${indices.distinctParts} different parts.`,
              change: `${indices.usedByOneModelOnly} parts serve one model only: replacing that model by one already fitted takes them away. See what standardising would save.`,
            }),
          }),
    }),
  ),
];

/** Indices by category and vessel, the whole first, each column explained in plain words below. */
export function IndexTable({ answer }: { readonly answer: CommonalityAnswer }) {
  const groups = [
    {
      key: "categories",
      heading: undefined,
      rows: [
        { name: "All of it", kind: "row-whole" as const, indices: answer.whole },
        ...answer.categories.map((entry) => ({
          name: entry.category,
          kind: "row-category" as const,
          indices: entry,
        })),
      ],
    },
    ...(answer.vessels.length === 0
      ? []
      : [
          {
            key: "vessels",
            heading: "By vessel",
            rows: answer.vessels.map((entry) => ({
              name: entry.vessel.name,
              kind: "row-vessel" as const,
              indices: entry,
            })),
          },
        ]),
  ];
  return (
    <>
      <DataTable
        caption="How alike, by category and vessel"
        columns={columns}
        rows={groups}
        rowKey={(row) => `${row.kind} ${row.name}`}
        rowClass={(row) => row.kind}
      />
      <details>
        <summary>What the columns mean</summary>
        <dl className="meanings">
          {indexColumns.map((column) => (
            <div key={column.key}>
              <dt>{column.name}</dt>
              <dd>{column.meaning}</dd>
            </div>
          ))}
        </dl>
      </details>
    </>
  );
}
