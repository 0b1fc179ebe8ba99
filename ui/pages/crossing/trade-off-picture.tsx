import { type KeyboardEvent, type PointerEvent, useMemo, useState } from "react";
import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import { Drawing } from "../../charts/drawing.tsx";
import { layOutTradeOff, roundestTarget } from "../../charts/trade-off-curve.ts";
import {
  measureText,
  objectiveScale,
  objectiveText,
  objectiveUnit,
  plural,
  sufficiencyText,
  wholeText,
} from "../../components/figures.ts";
import { Picture } from "../../components/picture.tsx";
import { TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import type { Units } from "../../components/units.ts";
import { useWidth } from "../../components/use-width.ts";
import { usePreferences } from "../../data/preferences.ts";

type TierRow = KitAnswer["tiers"][number];
type Point = KitAnswer["frontier"]["safety"][number];

const pointKey = ({ cost, sufficiency }: Point) => `${cost} ${sufficiency}`;

const columnsOf = ({ objective, currency }: KitAnswer, units: Units): readonly Column<Point>[] => [
  {
    id: "sure",
    name: "Not short",
    kind: "number",
    cell: ({ sufficiency }) => sufficiencyText(sufficiency),
    value: ({ sufficiency }) => sufficiency,
  },
  {
    id: "cost",
    name: objective === "cost" ? "Cost" : "Least",
    kind: "number",
    cell: ({ cost }) => objectiveText(cost, objective, currency, units),
    value: ({ cost }) => cost,
  },
  { id: "pieces", name: "Pieces", kind: "number", cell: ({ pieces }) => wholeText(pieces) },
];

/** One tier's trade-off curve: tap, drag or step to a kit on it, and its sureness becomes the target. */
export function TradeOffPicture({
  answer,
  tier,
  onTarget,
}: {
  readonly answer: KitAnswer;
  readonly tier: TierRow;
  readonly onTarget: (target: number) => void;
}) {
  const points = answer.frontier[tier.tier];
  const { frame, width } = useWidth(260, 100000);
  const [hovered, setHovered] = useState<number>();
  const { objective, currency } = answer;
  const { units } = usePreferences();
  const layout = useMemo(
    () =>
      layOutTradeOff({
        points,
        chosen: { cost: tier.cost, sufficiency: tier.withKit },
        target: tier.target,
        width,
        height: 240,
        amountText: (amount) => objectiveText(amount, objective, currency, units),
        tickText: (units) => measureText(units),
        amountScale: objectiveScale(objective, currency, units),
        sufficiencyText,
        name: `${tier.tier} tier`,
      }),
    [points, tier, width, objective, currency, units],
  );
  const columns = useMemo(() => columnsOf(answer, units), [answer, units]);
  const settle = (index: number) => {
    const point = points[index];
    if (point === undefined || index === layout.chosenIndex) return;
    onTarget(roundestTarget(points[index - 1]?.sufficiency ?? 0, point.sufficiency));
  };
  const nearest = (event: PointerEvent<HTMLDivElement>): number | undefined => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = event.clientX - box.left;
    const y = event.clientY - box.top;
    let best: number | undefined;
    let away = Number.POSITIVE_INFINITY;
    for (const spot of layout.placed) {
      const distance = Math.hypot(spot.x - x, (spot.y - y) / 2);
      if (distance < away) {
        away = distance;
        best = spot.index;
      }
    }
    return best;
  };
  const steer = (event: KeyboardEvent<HTMLDivElement>) => {
    const last = layout.placed.length - 1;
    const from = hovered ?? layout.chosenIndex;
    const to: Readonly<Record<string, number>> = {
      ArrowRight: from + 1,
      ArrowUp: from + 1,
      ArrowLeft: from - 1,
      ArrowDown: from - 1,
      Home: 0,
      End: last,
    };
    if (event.key === "Enter" && hovered !== undefined) {
      settle(hovered);
      setHovered(undefined);
      return;
    }
    const next = to[event.key];
    if (next === undefined) return;
    event.preventDefault();
    setHovered(Math.min(last, Math.max(0, next)));
  };
  const spot = hovered === undefined ? undefined : layout.placed[hovered];
  const at = points[hovered ?? layout.chosenIndex];
  const pointWords =
    at === undefined
      ? ""
      : `${sufficiencyText(at.sufficiency)} for ${objectiveText(at.cost, objective, currency, units)}, ${plural(at.pieces, "piece")}`;
  if (points.length === 0)
    return (
      <figure className="curve">
        <figcaption>
          <TierSign tier={tier.tier} /> nothing here can be provided for.
        </figcaption>
      </figure>
    );
  return (
    <Picture
      name={`trade-off-${tier.tier}`}
      className="curve"
      caption={
        <>
          <TierSign tier={tier.tier} />: {layout.scene.words.replace(/^\S+ tier: /, "")}
        </>
      }
      scene={() => layout.scene}
      table={{
        caption: `Least kits, ${tier.tier}`,
        columns,
        rows: points,
        rowKey: pointKey,
        rowClass: (point) => (point === points[layout.chosenIndex] ? "chosen" : ""),
      }}
    >
      <p className="axis-name" aria-hidden="true">
        <span>↑ chance of not running short</span>
        <span>{objectiveUnit(objective, currency, units)} →</span>
      </p>
      <div
        ref={frame}
        className="curve-frame"
        role="slider"
        tabIndex={0}
        aria-label={`Kit on the ${tier.tier} curve`}
        aria-valuemin={0}
        aria-valuemax={layout.placed.length - 1}
        aria-valuenow={hovered ?? Math.max(0, layout.chosenIndex)}
        aria-valuetext={pointWords}
        onKeyDown={steer}
        onBlur={() => setHovered(undefined)}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          setHovered(nearest(event));
        }}
        onPointerMove={(event) => setHovered(nearest(event))}
        onPointerLeave={() => setHovered(undefined)}
        onPointerUp={(event) => {
          const index = nearest(event);
          if (index !== undefined) settle(index);
        }}
      >
        <Drawing scene={layout.scene} hidden>
          {spot !== undefined && <circle cx={spot.x} cy={spot.y} r={7} className="curve-hover" />}
        </Drawing>
      </div>
      <p className="curve-said" aria-hidden="true">
        {hovered === undefined ? "Tap a point to take its sureness as the target." : pointWords}
      </p>
    </Picture>
  );
}
