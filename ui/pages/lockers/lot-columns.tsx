import { dayText, wholeText } from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";
import { writeRoute } from "../../routing/route.ts";
import type { Lot, Place } from "./stowage.ts";

const stateSign: Readonly<Record<Lot["state"], string>> = {
  usable: "✓",
  "falls due": "▵",
  "out of date": "✕",
  "date unknown": "?",
  "not serviceable": "✕",
};

/** A lot's state by shape and word. */
export const LotState = ({ state }: { readonly state: Lot["state"] }) => (
  <span className={state === "usable" ? "met" : state === "falls due" ? "strong" : "unmet"}>
    {stateSign[state]} {state}
  </span>
);

/** Columns of what lies in a place: what is used first stands first. */
export const lotColumns = (
  places: ReadonlyMap<string, Place>,
  isPaper: boolean,
): readonly Column<Lot>[] => [
  {
    id: "part",
    name: "Part",
    kind: "name",
    cell: (lot) => (
      <>
        <span className="part-number">{lot.part}</span>{" "}
        <span className="part-maker">{lot.maker}</span>
        <span className="part-description">{lot.description}</span>
      </>
    ),
    value: (lot) => `${lot.part} ${lot.maker} ${lot.description}`,
  },
  {
    id: "pieces",
    name: "Pieces",
    kind: "number",
    className: "strong",
    cell: ({ pieces }) => wholeText(pieces),
    value: ({ pieces }) => pieces,
  },
  {
    id: "lastDay",
    name: "Use by",
    cell: ({ lastDay }) => (lastDay === undefined ? "keeps" : dayText(lastDay)),
    value: ({ lastDay }) => lastDay ?? null,
  },
  {
    id: "state",
    name: "State",
    cell: ({ state }) => <LotState state={state} />,
    value: ({ state }) => state,
  },
  {
    id: "place",
    name: "Place",
    leftOut: isPaper ? "on paper" : "when narrow",
    cell: ({ placeId }) => {
      const place = places.get(placeId);
      return place === undefined ? (
        "–"
      ) : (
        <a className="row-link" href={writeRoute("lockers", [["locker", place.id]])}>
          {place.name}
        </a>
      );
    },
    value: ({ placeId }) => places.get(placeId)?.path ?? null,
  },
  ...(isPaper
    ? [
        {
          id: "counted",
          name: "Counted",
          cell: () => "",
          className: "tick-box",
        } satisfies Column<Lot>,
      ]
    : []),
];
