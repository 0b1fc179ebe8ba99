import type { DueAnswer } from "../../contract/stock.contract.ts";
import type { Beside } from "../what-if/beside-before.ts";
import { plural } from "../words.ts";

type Service = DueAnswer["services"][number];

const keyOf = ({ item, service }: Service): string => `${item.id} ${service.id}`;

/**
 * Sets two lists of what falls due side by side: services that appear, go, or fall due otherwise.
 *
 * @param fittedOn ISO day on which new gear is fitted and its services count as done
 */
export const dueSideBySide = (fittedOn: string): Beside<DueAnswer> => ({
  scene: ({ vessel }) => ({ vessel: vessel?.id, fittedOn }),
  figures: ({ services, lots }) => [
    { figure: "services that fall due", kind: "count", value: services.length },
    {
      figure: "due already",
      kind: "count",
      value: services.filter(({ overdue }) => overdue).length,
    },
    {
      figure: "short of what they use up",
      kind: "count",
      value: services.filter(({ ready }) => !ready).length,
    },
    {
      figure: "pieces they use up",
      kind: "count",
      value: services
        .flatMap(({ consumes }) => consumes)
        .filter(({ handled }) => !handled)
        .reduce((sum, { quantity }) => sum + quantity, 0),
    },
    { figure: "lots out of date or falling so", kind: "count", value: lots.length },
  ],
  entries: ({ services }) =>
    new Map(
      services.map((one) => [
        keyOf(one),
        { what: `${one.item.name}, ${one.service.name}`, words: one.words },
      ]),
    ),
  notices: [
    `New gear counts as fitted on ${fittedOn}, with no hours run and its services done that day.`,
    "What lies in the lockers stays as it is: spares of gear that is taken out are still aboard, and their dates still run.",
  ],
  sentence: (before, after) => {
    const was = new Set(before.services.map(keyOf));
    const is = new Set(after.services.map(keyOf));
    const come = [...is].filter((key) => !was.has(key)).length;
    const gone = [...was].filter((key) => !is.has(key)).length;
    if (come === 0 && gone === 0) return "With the change the same services fall due.";
    return `With the change ${plural(gone, "service")} no longer ${gone === 1 ? "falls" : "fall"} due and ${plural(come, "other")} ${come === 1 ? "does" : "do"}: ${plural(after.services.length, "service")} in all instead of ${before.services.length}.`;
  },
});
