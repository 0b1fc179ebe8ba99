import { useMemo } from "react";
import { Drawing } from "../../charts/drawing.tsx";
import { layOutWeb, type Web } from "../../charts/supply-web.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { Picture } from "../../components/picture.tsx";
import type { Column } from "../../components/table/column.ts";
import { useWidth } from "../../components/use-width.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { webOf } from "./web-of.ts";

interface Row {
  readonly gear: string;
  readonly part: string;
  readonly supplier: string;
}

const columns: readonly Column<Row>[] = [
  { id: "gear", name: "Gear", kind: "name", cell: ({ gear }) => gear },
  { id: "part", name: "Part", cell: ({ part }) => part },
  { id: "supplier", name: "Sold by", cell: ({ supplier }) => supplier },
];

/** The web as a table: a line to each model, part and supplier that hang together. */
function rowsOf(web: Web): readonly Row[] {
  const nameOf = new Map(
    [...web.gear, ...web.parts, ...web.suppliers].map(({ id, name }) => [id, name]),
  );
  return web.parts.flatMap(({ id, name }) => {
    const gear = web.takes.filter(([, part]) => part === id).map(([model]) => nameOf.get(model));
    const sellers = web.sold.filter(([part]) => part === id).map(([, by]) => nameOf.get(by));
    return (gear.length === 0 ? ["nothing fitted"] : gear).flatMap((model) =>
      (sellers.length === 0 ? ["nobody"] : sellers).map((supplier) => ({
        gear: model ?? "",
        part: name,
        supplier: supplier ?? "",
      })),
    );
  });
}

/** Gear, parts and suppliers that hang together with one selection. */
export function WebPicture({
  kind,
  id,
}: {
  readonly kind: keyof typeof webOf;
  readonly id: string;
}) {
  const answer = useAnswer<Web>(`web ${kind} ${id}`, (signal) => webOf[kind](id, signal));
  const { frame, width } = useWidth(300, 1000);
  const web = answer.value;
  const scene = useMemo(
    () => (web === undefined ? undefined : layOutWeb(web, width)),
    [web, width],
  );
  if (answer.problem !== undefined && web === undefined)
    return <ProblemNote problem={answer.problem} again={answer.again} />;
  if (web === undefined || scene === undefined)
    return <p className="loading">Following the lines…</p>;
  return (
    <Picture
      name="gear-parts-suppliers"
      caption={web.words}
      scene={() => layOutWeb(web, 900)}
      table={{
        caption: "Gear, parts and suppliers that hang together",
        columns,
        rows: rowsOf(web),
        rowKey: ({ gear, part, supplier }) => `${gear}|${part}|${supplier}`,
      }}
    >
      <div ref={frame}>
        <Drawing scene={scene} />
      </div>
    </Picture>
  );
}
