import { Printer, Tag } from "lucide-react";
import { useMemo } from "react";
import { Button } from "react-aria-components";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type { DueAnswer } from "../../../api/contract/stock.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { dayText, plural } from "../../components/figures.ts";
import { Notices, ProblemNote } from "../../components/notice.tsx";
import { DataTable } from "../../components/table/data-table.tsx";
import { useIsPrinting } from "../../components/use-printing.ts";
import { ask } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { useRecords } from "../../data/use-records.ts";
import { writeRoute } from "../../routing/route.ts";
import { AddRecord } from "../records/add-record.tsx";
import { LockerSheets } from "./locker-sheets.tsx";
import { lotColumns } from "./lot-columns.tsx";
import { LotDeeds } from "./lot-deeds.tsx";
import { StowForm } from "./stow-form.tsx";
import { type Lot, lotsOf, type Place, placesOf } from "./stowage.ts";

const needsLook = ({ state }: Lot) => state !== "usable";

function PlaceList({
  places,
  lots,
  open,
}: {
  readonly places: readonly Place[];
  readonly lots: readonly Lot[];
  readonly open: Place | undefined;
}) {
  return (
    <nav className="places" aria-label="Places">
      <ol>
        {places.map((place) => {
          const inside = lots.filter(({ placeId }) => place.within.has(placeId));
          const bad = inside.filter(needsLook).length;
          return (
            <li key={place.id} data-depth={Math.min(4, place.depth)}>
              <a
                href={writeRoute("lockers", [["locker", place.id]])}
                {...(place.id === open?.id ? { "aria-current": "true" as const } : {})}
              >
                <span className="place-name">{place.name}</span>
                <span className="place-count">
                  {inside.length}
                  <span className="hidden"> lots</span>
                  {bad > 0 && (
                    <span className="unmet">
                      {" "}
                      ▵{bad}
                      <span className="hidden"> to look at</span>
                    </span>
                  )}
                </span>
              </a>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

/** What lies where, what to use first, what is out of date. */
export function LockersPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const overview = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const due = useAnswer<DueAnswer>("due", (signal) => ask<DueAnswer>("/api/due", { signal }));
  const lockers = useRecords({ label: "Locker" }, true);
  const stock = useRecords({ label: "StockLot" }, true);
  const partRecords = useRecords({ label: "Part" }, true);
  const isPrinting = useIsPrinting();
  const vessels = overview.value?.vessels;
  const places = useMemo(() => placesOf(vessels ?? [], lockers.rows), [vessels, lockers.rows]);
  const byId = useMemo(() => new Map(places.map((place) => [place.id, place])), [places]);
  const lots = useMemo(
    () =>
      lotsOf(
        stock.rows.filter(({ label }) => label !== ""),
        new Map(partRecords.rows.map((part) => [part.id, part])),
        due.value,
      ),
    [stock.rows, partRecords.rows, due.value],
  );
  const asked = query.get("locker") ?? query.get("vessel");
  const open = byId.get(asked ?? "") ?? places[0];
  const shown = useMemo(
    () => (open === undefined ? [] : lots.filter(({ placeId }) => open.within.has(placeId))),
    [lots, open],
  );
  const columns = useMemo(() => lotColumns(byId, false), [byId]);
  const problem = overview.problem ?? lockers.problem ?? stock.problem ?? due.problem;
  const pieces = shown.reduce((sum, lot) => sum + lot.pieces, 0);
  const bad = shown.filter(needsLook).length;
  const isWaiting = stock.isWaiting || lockers.isWaiting || vessels === undefined;
  return (
    <>
      <h1>Where is what, and what is used first?</h1>
      {problem !== undefined && (
        <ProblemNote
          problem={problem}
          again={() => {
            lockers.again();
            stock.again();
            due.again();
          }}
        />
      )}
      {open === undefined ? (
        isWaiting ? (
          <p className="loading">Looking into the lockers…</p>
        ) : (
          <p className="sentence">No locker is on file yet.</p>
        )
      ) : (
        <>
          <p className="sentence" aria-live="polite">
            {shown.length === 0
              ? `Nothing is stowed in ${open.name}.`
              : `${plural(pieces, "piece")} in ${plural(shown.length, "lot")} lie in ${open.path}${bad > 0 ? `; ${plural(bad, "lot needs", "lots need")} a look before ${due.value === undefined ? "the next crossing" : dayText(due.value.until)}` : ""}.`}
          </p>
          <div className="list-tools">
            <Button className="act" onPress={() => window.print()}>
              <Printer size={18} aria-hidden="true" /> Print the sheets
            </Button>
            <a className="quiet" href={writeRoute("labels", [["locker", open.id]])}>
              <Tag size={18} aria-hidden="true" /> Labels
            </a>
            <AddRecord
              label="Locker"
              links={[{ type: "IS_WITHIN", label: "Within", isNeeded: true, value: open.id }]}
              fields={["name", "capacityLitres", "access"]}
            />
          </div>
          <div className="stowage">
            <PlaceList places={places} lots={lots} open={open} />
            <div className="stowage-list">
              <StowForm place={open} />
              {shown.length === 0 ? (
                <p>
                  Put the first thing in above, or{" "}
                  <a href={writeRoute("import")}>import a stock list</a>.
                </p>
              ) : (
                <DataTable
                  caption={`In ${open.path}`}
                  className="lots"
                  sorts
                  columns={columns}
                  rows={shown}
                  rowKey={({ id }) => id}
                  detail={{
                    words: (lot) => `Use, move or correct ${lot.part} ${lot.description}`,
                    show: (lot) => <LotDeeds lot={lot} places={places} />,
                  }}
                />
              )}
              <Notices notices={due.value?.notices ?? []} />
            </div>
          </div>
          {due.value !== undefined && (
            <Cautions title="Read with every list" cautions={due.value.cautions} />
          )}
          {isPrinting && (
            <LockerSheets
              places={places.filter(({ id }) => open.within.has(id))}
              lots={lots}
              today={due.value?.today ?? new Date().toISOString().slice(0, 10)}
              cautions={due.value?.cautions ?? []}
            />
          )}
        </>
      )}
    </>
  );
}
