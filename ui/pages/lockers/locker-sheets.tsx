import type { StowageLot, StowagePlace } from "../../../api/contract/stowage.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { dayText, plural, wholeText } from "../../components/figures.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { lotColumns } from "./lot-columns.tsx";

/** On paper: a sheet to each place that holds something, with room to count. */
export function LockerSheets({
  places,
  lots,
  total,
  today,
  until,
  cautions,
}: {
  readonly places: readonly StowagePlace[];
  readonly lots: readonly StowageLot[];
  /** Lots in all; more than are handed in where the list is long. */
  readonly total: number;
  readonly today: string;
  readonly until: string;
  readonly cautions: readonly string[];
}) {
  const byId = new Map(places.map((place) => [place.id, place]));
  const columns = lotColumns(byId, "paper", until);
  const filled = places
    .map((place) => ({ place, lots: lots.filter(({ placeId }) => placeId === place.id) }))
    .filter((sheet) => sheet.lots.length > 0);
  return (
    <div className="paper-only">
      {total > lots.length && (
        <p>
          Only the first {wholeText(lots.length)} of {wholeText(total)} lots stand here, those to
          use first. Print locker by locker to have them all.
        </p>
      )}
      {filled.map((sheet) => (
        <section key={sheet.place.id} className="sheet">
          <h2>{sheet.place.path}</h2>
          <p>
            {plural(sheet.lots.length, "lot")},{" "}
            {plural(
              sheet.lots.reduce((sum, { pieces }) => sum + pieces, 0),
              "piece",
            )}
            . Printed {dayText(today)}. First to use stands first.
          </p>
          <DataTable
            caption={`In ${sheet.place.path}`}
            columns={columns}
            rows={sheet.lots}
            rowKey={({ id }) => id}
          />
        </section>
      ))}
      <Cautions title="Read with every list" cautions={cautions} />
    </div>
  );
}
