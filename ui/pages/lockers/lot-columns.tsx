import type { StowageLot, StowagePlace } from "../../../api/contract/stowage.contract.ts";
import { dayText, plural, wholeText } from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";
import { writeRoute } from "../../routing/route.ts";

const stateSign: Readonly<Record<StowageLot["state"], string>> = {
  usable: "✓",
  "falls due": "▵",
  "out of date": "✕",
  "date unknown": "?",
  "not serviceable": "✕",
};

/** A lot's state by shape and word. */
export const LotState = ({ state }: { readonly state: StowageLot["state"] }) => (
  <span className={state === "usable" ? "met" : state === "falls due" ? "strong" : "unmet"}>
    {stateSign[state]} {state}
  </span>
);

/** Columns of what lies in a place: what is used first stands first. */
export const lotColumns = (
  places: ReadonlyMap<string, StowagePlace>,
  kind: "screen" | "long" | "paper",
  until: string,
  /** The place that is open, for links of a long list. */
  open = "",
): readonly Column<StowageLot>[] => [
  {
    id: "part",
    name: "Part",
    kind: "name",
    cell: (lot) => (
      <>
        {kind === "long" ? (
          <a
            className="row-link part-number"
            href={writeRoute("lockers", [
              ["locker", open],
              ["lot", lot.id],
            ])}
          >
            {lot.part.name || "…"}
          </a>
        ) : (
          <span className="part-number">{lot.part.name}</span>
        )}{" "}
        <span className="part-maker">{lot.maker}</span>
        <span className="part-description">{lot.description}</span>
      </>
    ),
    value: (lot) => `${lot.part.name} ${lot.maker} ${lot.description}`,
  },
  {
    id: "pieces",
    name: "Pieces",
    kind: "number",
    className: "strong",
    cell: ({ pieces }) => wholeText(pieces),
    value: ({ pieces }) => pieces,
    ...(kind === "screen"
      ? {
          why: (lot: StowageLot) => ({
            what: `${plural(lot.pieces, "piece")} of ${lot.part.name} in this lot${lot.state === "usable" ? ", good for the next crossing" : `: ${lot.state}`}.`,
            how: "What was put away, less what was used or moved since. A lot counts as aboard while its last day is after the longest-case arrival and its condition is sound.",
            rests: `${lot.lastDay === null ? "It carries no date and keeps" : `Its last day is ${dayText(lot.lastDay)}`}; lots must be good until ${dayText(until)}. ${lot.words}`,
            change: "Stow, use, move or correct it: open the line.",
          }),
        }
      : {}),
  },
  {
    id: "lastDay",
    name: "Use by",
    cell: ({ lastDay }) => (lastDay === null ? "keeps" : dayText(lastDay)),
    value: ({ lastDay }) => lastDay,
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
    leftOut: kind === "paper" ? "on paper" : "when narrow",
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
  ...(kind === "paper"
    ? [
        {
          id: "counted",
          name: "Counted",
          cell: () => "",
          className: "tick-box",
        } satisfies Column<StowageLot>,
      ]
    : []),
];
