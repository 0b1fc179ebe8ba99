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

const written = (value: number | null, isRatio: boolean): string =>
  value === null ? "not known" : isRatio ? indexText(value) : wholeText(value);

const columns: readonly Column<Row>[] = [
  { id: "gear", name: "Gear", kind: "name", cell: (row) => row.name },
  ...indexColumns.map(
    ({ key, name, isRatio, meaning, formula }): Column<Row> => ({
      id: key,
      name,
      kind: "number",
      cell: ({ indices }) => (indices[key] === null ? "–" : written(indices[key], isRatio)),
      value: ({ indices }) => indices[key],
      why: ({ name: of, indices }) => ({
        what: `${of}: ${written(indices[key], isRatio)}. ${meaning}`,
        how: formula,
        rests: `${wholeText(indices.lines)} lines of ${wholeText(indices.models)} parts lists with ${wholeText(indices.distinctParts)} different parts. Models without a list are not counted: what they need is unknown.`,
        change: `${wholeText(indices.usedByOneModelOnly)} parts serve one model only: replacing that model by one already fitted takes them away. See what standardising would save.`,
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
