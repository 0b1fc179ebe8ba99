import { useMemo } from "react";
import type { ChooseAnswer } from "../../../api/contract/choose.contract.ts";
import { layOutCostBars } from "../../charts/cost-bars.ts";
import { Drawing } from "../../charts/drawing.tsx";
import { moneyRoundText } from "../../components/figures.ts";
import { Picture } from "../../components/picture.tsx";
import type { Column } from "../../components/table/column.ts";
import { useWidth } from "../../components/use-width.ts";

interface Row {
  readonly name: string;
  readonly price: number;
  readonly kit: number;
}

/** What each make makes the boat cost: its price and the kit it needs. */
export function CostPicture({ answer }: { readonly answer: ChooseAnswer }) {
  const { frame, width } = useWidth(280, 760);
  const { currency, cheapest } = answer;
  const rows = useMemo(
    () =>
      answer.candidates.flatMap(({ model, priceAll, kit }): Row[] =>
        priceAll === null || kit === null || priceAll.currency !== currency
          ? []
          : [{ name: model.name, price: priceAll.minor, kit: kit.cost.minor }],
      ),
    [answer, currency],
  );
  const [first, second] = rows;
  const words =
    first === undefined
      ? "No make has both a price and a kit."
      : `${first.name} makes the cheapest boat: ${moneyRoundText(first.price + first.kit, currency)} for the gear and all spares` +
        `${second === undefined ? "." : `, ${moneyRoundText(second.price + second.kit - first.price - first.kit, currency)} less than ${second.name}.`}`;
  const draw = (wide: number) =>
    layOutCostBars(
      rows.map((row) => ({ ...row, isCheapest: row.name === cheapest?.name })),
      wide,
      words,
      (amount) => moneyRoundText(amount, currency),
    );
  const columns: readonly Column<Row>[] = [
    { id: "name", name: "Make", kind: "name", cell: ({ name }) => name },
    {
      id: "price",
      name: `Gear, ${currency}`,
      kind: "number",
      cell: ({ price }) => moneyRoundText(price, currency),
      value: ({ price }) => price,
    },
    {
      id: "kit",
      name: `Kit of the boat, ${currency}`,
      kind: "number",
      cell: ({ kit }) => moneyRoundText(kit, currency),
      value: ({ kit }) => kit,
    },
  ];
  if (rows.length === 0) return <p>{words}</p>;
  return (
    <Picture
      name="cost-of-makes"
      caption={`${words} Lighter: the gear itself; darker: the spares kit of the whole boat.`}
      scene={() => draw(760)}
      table={{ caption: "Gear and kit by make", columns, rows, rowKey: ({ name }) => name }}
    >
      <div ref={frame}>
        <Drawing scene={draw(width)} />
      </div>
    </Picture>
  );
}
