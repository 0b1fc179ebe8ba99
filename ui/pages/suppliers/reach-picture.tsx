import { useMemo } from "react";
import type { SuppliersAnswer } from "../../../api/contract/suppliers.contract.ts";
import { Drawing } from "../../charts/drawing.tsx";
import { layOutReach } from "../../charts/reach-steps.ts";
import { plural, wholeText } from "../../components/figures.ts";
import { Picture } from "../../components/picture.tsx";
import type { Column } from "../../components/table/column.ts";
import { useWidth } from "../../components/use-width.ts";

type Reach = SuppliersAnswer["curve"][number]["parts"];

/** A figure, with its bound where it is not proven. */
const reachText = ({ reached, status, upperBound }: Reach): string =>
  status === "optimal"
    ? wholeText(reached)
    : `${wholeText(reached)} (at most ${wholeText(upperBound)})`;

const reachColumn = (
  id: "gearWhole" | "gearPartly" | "parts",
  name: string,
): Column<SuppliersAnswer["curve"][number]> => ({
  id,
  name,
  kind: "number",
  cell: (point) => reachText(point[id]),
  value: (point) => point[id].reached,
});

const columns: readonly Column<SuppliersAnswer["curve"][number]>[] = [
  { id: "count", name: "Best", kind: "name", className: "number", cell: ({ count }) => count },
  reachColumn("gearWhole", "Items whole"),
  {
    id: "sure",
    name: "Without any one",
    kind: "number",
    cell: ({ gearWhole }) => wholeText(gearWhole.withoutAnyOne),
    value: ({ gearWhole }) => gearWhole.withoutAnyOne,
  },
  reachColumn("gearPartly", "Items partly"),
  reachColumn("parts", "Parts"),
  {
    id: "who",
    name: "For most items whole",
    kind: "wordy",
    cell: ({ gearWhole }) => gearWhole.suppliers.map(({ name }) => name).join(", "),
  },
];

/** What the picture says: what one supplier covers, and how few cover nearly all. */
function reachFinding({ curve, gear }: SuppliersAnswer): string {
  const [first] = curve;
  const enough = curve.find(({ gearWhole }) => gearWhole.reached >= 0.9 * gear.coverable);
  if (first === undefined) return "Nobody sells anything yet.";
  const one = `The best one has every part of ${wholeText(first.gearWhole.reached)} of ${plural(gear.items, "item")}`;
  return enough === undefined || enough.count === 1
    ? `${one}; ${wholeText(gear.coverable)} could be covered by all together.`
    : `${one}; ${enough.count} together have every part of ${wholeText(enough.gearWhole.reached)}.`;
}

/** Gear covered whole by the best one, two, three ... suppliers, drawn and as a table. */
export function ReachPicture({ answer }: { readonly answer: SuppliersAnswer }) {
  const { frame, width } = useWidth(260, 760);
  const input = useMemo(
    () => ({
      points: answer.curve.map(({ count, gearWhole }) => ({ count, ...gearWhole })),
      total: answer.gear.items,
      coverable: answer.gear.coverable,
    }),
    [answer],
  );
  const scene = useMemo(
    () =>
      layOutReach({
        ...input,
        width,
        height: 280,
      }),
    [input, width],
  );
  return (
    <Picture
      name="suppliers-together"
      className="reach"
      caption={
        <>
          {reachFinding(answer)} The strong foot of a bar would still be covered whichever one of
          them dropped out.
        </>
      }
      scene={() => layOutReach({ ...input, width: 760, height: 320 })}
      table={{
        caption: "The best suppliers together",
        columns,
        rows: answer.curve,
        rowKey: (point) => String(point.count),
      }}
    >
      <div ref={frame}>
        <Drawing scene={scene} />
      </div>
    </Picture>
  );
}
