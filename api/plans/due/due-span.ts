import type { DueAnswer, DueRequest } from "../../contract/stock.contract.ts";
import { dayOfIso, isoOfDay } from "../../scoring/aboard/calendar.ts";
import { usableUntilDay } from "../../scoring/provision/passage.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { choosePassage } from "../kit/choose-passage.ts";

const usualDays = 90;

interface Span {
  readonly departs: number;
  readonly until: number;
  readonly notices: DueAnswer["notices"];
}

/** Until when, and when the gear begins to run: by the next crossing, where there is one to come. */
export async function dueSpan(
  store: GraphStore,
  request: DueRequest,
  today: number,
): Promise<Span> {
  const vessels = await store.count("Vessel");
  const next =
    vessels === 0
      ? undefined
      : await choosePassage(
          store,
          request.vessel === undefined ? {} : { vessel: request.vessel },
          isoOfDay(today),
        );
  const coming =
    next?.crossing !== undefined && next.passage.departsDay >= today ? next.passage : undefined;
  const departs = coming?.departsDay ?? today;
  if (request.until !== undefined) return { departs, until: dayOfIso(request.until), notices: [] };
  if (coming !== undefined) return { departs, until: usableUntilDay(coming), notices: [] };
  return {
    departs,
    until: today + usualDays,
    notices: [
      {
        code: "until-assumed",
        text: `No crossing lies ahead and no day was given: what falls due in ${usualDays} days is listed.`,
      },
    ],
  };
}
