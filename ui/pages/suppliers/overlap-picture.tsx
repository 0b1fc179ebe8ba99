import { useMemo } from "react";
import type { SuppliersAnswer } from "../../../api/contract/suppliers.contract.ts";
import { Drawing } from "../../charts/drawing.tsx";
import { layOutOverlaps } from "../../charts/overlap-grid.ts";
import { plural, wholeText } from "../../components/figures.ts";
import { Picture } from "../../components/picture.tsx";
import type { Column } from "../../components/table/column.ts";
import { useWidth } from "../../components/use-width.ts";

type Row = SuppliersAnswer["overlaps"][number];

const columns: readonly Column<Row>[] = [
  { id: "a", name: "Supplier", kind: "name", cell: ({ a }) => a.name },
  { id: "b", name: "and", cell: ({ b }) => b.name },
  {
    id: "shared",
    name: "Shared parts",
    kind: "number",
    cell: ({ shared }) => wholeText(shared),
    value: ({ shared }) => shared,
  },
  {
    id: "jaccard",
    name: "Of what either sells",
    kind: "number",
    cell: ({ jaccard }) => `${Math.round(100 * jaccard)} %`,
    value: ({ jaccard }) => jaccard,
  },
];

/** Where one supplier can stand in for another: each pair by how many of the same parts they sell. */
export function OverlapPicture({ answer }: { readonly answer: SuppliersAnswer }) {
  const { frame, width } = useWidth(280, 640);
  const input = useMemo(() => {
    const [most] = [...answer.overlaps].sort((a, b) => b.shared - a.shared);
    return {
      names: answer.suppliers.map(({ supplier }) => supplier.name),
      overlaps: answer.overlaps.map(({ a, b, shared }) => ({ a: a.name, b: b.name, shared })),
      words:
        most === undefined
          ? "No two suppliers sell the same part."
          : `${plural(answer.overlaps.length, "pair")} of suppliers sell some of the same parts; most, ${wholeText(most.shared)}, are sold by both ${most.a.name} and ${most.b.name}.`,
    };
  }, [answer]);
  const draw = (wide: number) => layOutOverlaps(input.names, input.overlaps, wide, input.words);
  return (
    <Picture
      name="suppliers-overlap"
      caption={`${input.words} The number is that of parts its row and its column both sell; columns carry their row's number.`}
      scene={() => draw(640)}
      table={{
        caption: "Suppliers that sell the same parts",
        columns,
        rows: answer.overlaps,
        rowKey: ({ a, b }) => `${a.id} ${b.id}`,
      }}
    >
      <div ref={frame}>
        <Drawing scene={draw(width)} />
      </div>
    </Picture>
  );
}
