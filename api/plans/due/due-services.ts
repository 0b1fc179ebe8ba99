import type { DueAnswer } from "../../contract/stock.contract.ts";
import { isoOfDay } from "../../scoring/aboard/calendar.ts";
import { stockAboard } from "../../scoring/aboard/usable-stock.ts";
import type { PartClasses } from "../../scoring/classes/part-classes.ts";
import { addCalendarMonths } from "../../scoring/demand/calendar-months.ts";
import type { Passage } from "../../scoring/provision/passage.ts";
import { timesDue } from "../../scoring/provision/service-lines.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { plural } from "../words.ts";

type DueService = DueAnswer["services"][number];

interface FoundDue {
  readonly item: number;
  readonly service: number;
  readonly vessel: number;
  readonly times: number;
  readonly assumed: boolean;
  /** Days since 1970-01-01; -infinity where it is not known when it was last done. */
  readonly day: number;
}

/** A month long, so that a service due at the very moment asked about counts. */
const moment = 1e-3;

/**
 * Services of fitted items that fall due until a day, soonest first, with what each uses up and whether it is aboard
 * after those due before it have had theirs.
 *
 * Months run by the calendar. Hours and operations run from departure on at the item's hours a day, as the kit
 * reckons them (service-lines.ts); before departure, gear is taken to lie still. When the last service is not
 * known, it counts as due at once.
 *
 * @param departs day of departure, or today where none is known
 */
export function dueServices(
  snapshot: Snapshot,
  classes: PartClasses,
  vessels: readonly number[],
  today: number,
  departs: number,
  until: number,
): DueService[] {
  const found = vessels.flatMap((vessel) => dueOn(snapshot, vessel, departs, until));
  found.sort((a, b) => a.day - b.day || a.item - b.item || a.service - b.service);
  const pools = new Map(
    vessels.map((vessel) => [vessel, poolOf(snapshot, classes, vessel, until)]),
  );
  return found.map((due) =>
    describe(snapshot, classes, due, today, pools.get(due.vessel) ?? new Map()),
  );
}

function passageTo(departs: number, until: number): Passage {
  const days = Math.max(moment, until - departs);
  const departsDay = Math.min(departs, until);
  return { departsDay, daysExpected: days, daysLongest: days, marginDays: 0 };
}

function dueOn(
  snapshot: Snapshot,
  vessel: number,
  departs: number,
  until: number,
): readonly FoundDue[] {
  const { items, services } = snapshot;
  const passage = passageTo(departs, until);
  const ofModel = new Map<number, number[]>();
  services.model.forEach((model, service) => {
    ofModel.set(model, [...(ofModel.get(model) ?? []), service]);
  });
  const found: FoundDue[] = [];
  for (let item = 0; item < items.id.length; item++) {
    if (items.vessel[item] !== vessel) continue;
    for (const service of ofModel.get(items.model[item] ?? -1) ?? []) {
      const due = timesDue(snapshot, item, service, passage);
      if (due === undefined || due.times === 0) continue;
      found.push({
        item,
        service,
        vessel,
        times: due.times,
        assumed: due.assumed,
        day: due.assumed
          ? Number.NEGATIVE_INFINITY
          : firstDay(snapshot, item, service, passage.departsDay, due.dueDays[0] ?? 0),
      });
    }
  }
  return found;
}

/** The day a service first falls due; what is overdue at departure fell due when its months ran out, if they did. */
function firstDay(
  snapshot: Snapshot,
  item: number,
  service: number,
  departs: number,
  dueDay: number,
): number {
  if (dueDay > 0) return departs + Math.floor(dueDay);
  const months = snapshot.services.intervalMonths[service] ?? Number.NaN;
  const { serviced } = snapshot;
  for (let at = serviced.start[item] ?? 0; at < (serviced.start[item + 1] ?? 0); at++) {
    const done = serviced.lastDoneDay[at] ?? Number.NaN;
    if (serviced.target[at] === service && !Number.isNaN(done) && !Number.isNaN(months))
      return Math.min(departs, addCalendarMonths(done, months));
  }
  return departs;
}

function poolOf(
  snapshot: Snapshot,
  classes: PartClasses,
  vessel: number,
  until: number,
): Map<number, number> {
  const { usable } = stockAboard(snapshot, vessel, until);
  const pool = new Map<number, number>();
  usable.forEach((pieces, part) => {
    if (pieces === 0) return;
    const partClass = classes.classOf[part] ?? -1;
    pool.set(partClass, (pool.get(partClass) ?? 0) + pieces);
  });
  return pool;
}

function describe(
  snapshot: Snapshot,
  classes: PartClasses,
  due: FoundDue,
  today: number,
  pool: Map<number, number>,
): DueService {
  const { items, services, models, makers, vessels, consumes, parts } = snapshot;
  const { item, service, times, assumed } = due;
  const model = items.model[item] ?? -1;
  const lines: DueService["consumes"] = [];
  for (let at = consumes.start[service] ?? 0; at < (consumes.start[service + 1] ?? 0); at++) {
    const part = consumes.target[at] ?? -1;
    const handled = !Number.isNaN(consumes.lossChance[at] ?? Number.NaN);
    const quantity = (consumes.quantity[at] ?? 1) * times;
    const partClass = classes.classOf[part] ?? -1;
    const aboard = pool.get(partClass) ?? 0;
    if (!handled) pool.set(partClass, Math.max(0, aboard - quantity));
    lines.push({
      part: { id: String(parts.id[part] ?? ""), label: "Part", name: parts.partNumber[part] ?? "" },
      description: parts.description[part] ?? "",
      quantity,
      handled,
      aboard,
      enough: aboard >= quantity,
    });
  }
  const ready = lines.every((line) => line.handled || line.enough);
  const dueOn = assumed ? null : isoOfDay(due.day);
  const overdue = assumed || due.day <= today;
  const position = items.position[item] ?? "";
  const name = services.name[service] ?? "";
  const when = assumed
    ? "not known when last done, so due at once"
    : due.day <= today
      ? `due since ${dueOn}`
      : `due on ${dueOn}`;
  const short = lines.filter((line) => !line.handled && !line.enough);
  const stock =
    lines.length === 0
      ? ""
      : short.length === 0
        ? "; all it uses up is aboard"
        : `; short of ${short.map((line) => `${line.part.name} (${line.quantity} needed, ${line.aboard} aboard)`).join(", ")}`;
  return {
    item: { id: String(items.id[item] ?? ""), label: "FittedItem", name: position },
    vessel: vessels.name[due.vessel] ?? "",
    service: { id: String(services.id[service] ?? ""), label: "ServiceTask", name },
    model: {
      id: String(models.id[model] ?? ""),
      name: [makers.name[models.maker[model] ?? -1], models.designation[model]]
        .filter((word) => word)
        .join(" "),
    },
    dueOn,
    overdue,
    assumed,
    times,
    consumes: lines,
    ready,
    words: `${position}, ${name}: ${when}${times > 1 ? `, ${plural(times, "time")} in all` : ""}${stock}`,
  };
}
