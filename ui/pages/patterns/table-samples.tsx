import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import { plural, wholeText } from "../../components/figures.ts";
import { EvidenceSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";

interface Sample {
  readonly id: string;
  readonly number: string;
  readonly what: string;
  readonly pieces: number;
}

const things = ["Impeller", "Shaft seal", "Pawl spring", "Diaphragm", "Anode", "Fuse"] as const;

const samples = (count: number): readonly Sample[] =>
  Array.from({ length: count }, (_, index) => ({
    id: String(index),
    number: `${String((index * 7919) % 1_000_003).padStart(6, "0")}-${"ABKX".charAt(index % 4)}`,
    what: things[index % things.length] ?? "",
    pieces: (index * 31) % 17,
  }));

const columns: readonly Column<Sample>[] = [
  {
    id: "number",
    name: "Part",
    kind: "name",
    cell: ({ number, id }) => (
      <a className="row-link" href={`#/patterns?row=${id}`}>
        {number}
      </a>
    ),
    value: ({ number }) => number,
  },
  { id: "what", name: "Description", cell: ({ what }) => what, share: 2 },
  {
    id: "evidence",
    name: "Evidence",
    cell: ({ pieces }) => <EvidenceSign evidence={pieces % 2 === 0 ? "measured" : "assumed"} />,
    value: ({ pieces }) => pieces % 2,
  },
  {
    id: "pieces",
    name: "Pieces",
    kind: "number",
    cell: ({ pieces }) => wholeText(pieces),
    value: ({ pieces }) => pieces,
  },
];

const plainColumns: readonly Column<Sample>[] = columns.map((column) =>
  column.id === "number" ? { ...column, cell: ({ number }) => number } : column,
);

/** Tables: plain and sorted, in groups, opening, and a hundred thousand rows long. */
export function TableSamples() {
  const [count, setCount] = useState(0);
  const many = useMemo(() => samples(count), [count]);
  const few = useMemo(() => samples(5), []);
  return (
    <>
      <h3>Plain; headings sort</h3>
      <DataTable
        caption="A plain table"
        sorts
        columns={plainColumns}
        rows={few}
        rowKey={({ id }) => id}
      />
      <h3>In groups; rows open</h3>
      <DataTable
        caption="Groups and rows that open"
        columns={plainColumns}
        rows={[
          { key: "one", heading: "First group", rows: few.slice(0, 2) },
          { key: "two", heading: "Second group", rows: few.slice(2) },
        ]}
        rowKey={({ id }) => id}
        detail={{
          words: ({ number }) => `More about ${number}`,
          show: ({ what }) => <p>{what}: the reasons stand here.</p>,
        }}
      />
      <h3>Very long</h3>
      <p>
        <Button className="quiet" onPress={() => setCount(100_000)}>
          Fill with a hundred thousand rows
        </Button>
      </p>
      {count > 0 && (
        <>
          <p className="said">{plural(count, "row")}, of which those in sight are on the page.</p>
          <DataTable
            caption="A hundred thousand rows"
            sorts
            columns={columns}
            rows={many}
            rowKey={({ id }) => id}
          />
        </>
      )}
    </>
  );
}
