import type { Matrix } from "../../charts/parts-matrix.ts";
import type { PictureTable } from "../../components/picture.tsx";
import type { Column } from "../../components/table/column.ts";

interface Row {
  readonly id: string;
  readonly name: string;
  readonly description: string;
  readonly maker: string;
  readonly takers: readonly string[];
}

const columns: readonly Column<Row>[] = [
  { id: "part", name: "Part", kind: "name", cell: ({ name }) => name },
  { id: "description", name: "Description", share: 1.5, cell: ({ description }) => description },
  { id: "maker", name: "Maker", leftOut: "when narrow", cell: ({ maker }) => maker },
  {
    id: "models",
    name: "Models",
    kind: "number",
    share: 0.6,
    cell: ({ takers }) => takers.length,
  },
  {
    id: "takers",
    name: "Taken by",
    kind: "wordy",
    share: 3,
    cell: ({ takers }) => takers.join(", "),
  },
];

/** The parts matrix as a table: each part drawn, with the models that take it; O(cells + parts). */
export function matrixTable(matrix: Matrix, drawn: readonly number[]): PictureTable<Row> {
  const takers = matrix.parts.map((): string[] => []);
  for (const [row, column] of matrix.cells) takers[column]?.push(matrix.models[row]?.name ?? "");
  const rows = drawn.map((column): Row => {
    const part = matrix.parts[column];
    return {
      id: part?.id ?? String(column),
      name: part?.name ?? "",
      description: part?.description ?? "",
      maker: part?.maker ?? "",
      takers: takers[column] ?? [],
    };
  });
  return {
    caption: "Parts and the models that take them",
    columns,
    rows,
    rowKey: ({ id }) => id,
  };
}
