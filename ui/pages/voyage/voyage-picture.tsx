import { useMemo } from "react";
import type { VoyageAnswer } from "../../../api/contract/voyage.contract.ts";
import { Drawing } from "../../charts/drawing.tsx";
import { layOutVoyage, type VoyageSpan } from "../../charts/voyage-spans.ts";
import { dayText, measureText, plural, wholeText } from "../../components/figures.ts";
import { Picture } from "../../components/picture.tsx";
import type { Column } from "../../components/table/column.ts";
import { useWidth } from "../../components/use-width.ts";

interface Row extends VoyageSpan {
  readonly fromPort: string;
  readonly toPort: string;
}

/** Pieces by where they come aboard and how far they are meant to last. */
function spansOf({ departures }: VoyageAnswer): readonly Row[] {
  return departures.flatMap((departure, from) => {
    const byEnd = new Map<number, number>();
    for (const { carry, lasts } of departure.lines) {
      const end =
        from +
        1 +
        Math.max(
          0,
          lasts.findIndex((chance) => chance > 0),
        );
      if (carry > 0) byEnd.set(end, (byEnd.get(end) ?? 0) + carry);
    }
    return [...byEnd]
      .sort(([a], [b]) => b - a)
      .map(([to, pieces]) => ({
        from,
        to,
        pieces,
        fromPort: departure.from,
        toPort: departures[to - 1]?.to ?? "",
      }));
  });
}

const piecesOf = (rows: readonly Row[]): number =>
  rows.reduce((sum, { pieces }) => sum + pieces, 0);

/** What the picture shows, in a sentence. */
function findingOf({ departures }: VoyageAnswer, rows: readonly Row[]): string {
  const end = departures.length;
  const start = departures[0]?.from ?? "departure";
  const name = departures.at(-1)?.to ?? "arrival";
  const first = piecesOf(rows.filter(({ from }) => from === 0));
  const whole = piecesOf(rows.filter(({ from, to }) => from === 0 && to === end));
  const ports = [...new Set(rows.filter(({ from }) => from > 0).map(({ fromPort }) => fromPort))];
  return ports.length === 0
    ? `All ${plural(first, "piece")} must last from ${start} to ${name}${end === 1 ? "" : ": no port on the way supplies any"}.`
    : `Of ${plural(first, "piece")} aboard when leaving ${start}, ${wholeText(whole)} must last to ${name}; the others are topped up in ${ports.join(", ")}.`;
}

const columns: readonly Column<Row>[] = [
  { id: "from", name: "Aboard from", kind: "name", cell: ({ fromPort }) => fromPort },
  { id: "to", name: "Meant to last to", cell: ({ toPort }) => toPort },
  {
    id: "pieces",
    name: "Pieces",
    kind: "number",
    cell: ({ pieces }) => wholeText(pieces),
    value: ({ pieces }) => pieces,
  },
];

/** How far what is aboard at each departure is meant to last. */
export function VoyagePicture({ answer }: { readonly answer: VoyageAnswer }) {
  const { frame, width } = useWidth(280, 760);
  const rows = useMemo(() => spansOf(answer), [answer]);
  const words = findingOf(answer, rows);
  const draw = (wide: number) =>
    layOutVoyage({
      ports: [
        ...answer.departures.map(({ from, departs, daysExpected, daysLongest }) => ({
          name: from,
          note: `sails ${dayText(departs)}`,
          leg: `${measureText(daysExpected)} to ${measureText(daysLongest)} days`,
          days: daysLongest,
        })),
        { name: answer.departures.at(-1)?.to ?? "", note: "arrival", leg: "", days: 0 },
      ],
      spans: rows,
      width: wide,
      words,
    });
  if (rows.length === 0) return <p>Nothing need be carried, so nothing must last.</p>;
  return (
    <Picture
      name="voyage"
      caption={`${words} Darker: aboard at the start. Lighter, outlined: aboard after topping up in a port.`}
      scene={() => draw(760)}
      table={{
        caption: "How far the pieces must last",
        columns,
        rows,
        rowKey: ({ from, to }) => `${from} ${to}`,
      }}
    >
      <div ref={frame} className="voyage-box">
        <Drawing scene={draw(width)} />
      </div>
    </Picture>
  );
}
