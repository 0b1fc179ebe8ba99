import { Printer, Tag } from "lucide-react";
import { useMemo } from "react";
import { Button } from "react-aria-components";
import type { StowageAnswer, StowagePlace } from "../../../api/contract/stowage.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { dayText, plural } from "../../components/figures.ts";
import { FirstSteps } from "../../components/first-steps.tsx";
import { Notices, ProblemNote } from "../../components/notice.tsx";
import { DataTable } from "../../components/table/data-table.tsx";
import { useIsPrinting } from "../../components/use-printing.ts";
import { ask } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { writeRoute } from "../../routing/route.ts";
import { AddRecord } from "../records/add-record.tsx";
import { LockerSheets } from "./locker-sheets.tsx";
import { LongLots } from "./long-lots.tsx";
import { lotColumns } from "./lot-columns.tsx";
import { LotDeeds } from "./lot-deeds.tsx";
import { PlaceList } from "./place-list.tsx";
import { StowForm } from "./stow-form.tsx";

const sentenceOf = (answer: StowageAnswer, open: StowagePlace): string =>
  answer.total === 0
    ? `Nothing is stowed in ${open.name}.`
    : `${plural(answer.pieces, "piece")} in ${plural(answer.total, "lot")} lie in ${open.path}${answer.attention > 0 ? `; ${plural(answer.attention, "lot needs", "lots need")} a look before ${dayText(answer.until)}` : ""}.`;

function Lots({
  answer,
  picked,
}: {
  readonly answer: StowageAnswer;
  readonly picked: string | undefined;
}) {
  const columns = useMemo(
    () => lotColumns(new Map(answer.places.map((one) => [one.id, one])), "screen", answer.until),
    [answer],
  );
  if (answer.total === 0)
    return (
      <p>
        Put the first thing in above, or <a href={writeRoute("import")}>import a stock list</a>.
      </p>
    );
  if (answer.total > answer.lots.length) return <LongLots answer={answer} picked={picked} />;
  return (
    <DataTable
      caption={`In ${answer.place?.path ?? ""}`}
      className="lots"
      sorts
      columns={columns}
      rows={answer.lots}
      rowKey={({ id }) => id}
      detail={{
        words: (lot) => `Use, move or correct ${lot.part.name} ${lot.description}`,
        show: (lot) => <LotDeeds lot={lot} places={answer.places} />,
      }}
    />
  );
}

/** What lies where, what to use first, what is out of date. */
export function LockersPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const asked = query.get("locker") ?? query.get("vessel");
  const picked = query.get("lot");
  const answer = useAnswer<StowageAnswer>(`stowage ${asked ?? ""}`, (signal) =>
    ask<StowageAnswer>(
      asked === undefined ? "/api/stowage" : `/api/stowage?place=${encodeURIComponent(asked)}`,
      { signal },
    ),
  );
  const isPrinting = useIsPrinting();
  const { value } = answer;
  const open = value?.place ?? undefined;
  return (
    <>
      <h1>Where is what, and what is used first?</h1>
      {answer.problem !== undefined && (
        <>
          <ProblemNote problem={answer.problem} again={answer.again} />
          {asked !== undefined && (
            <p>
              <a href={writeRoute("lockers")}>Show all places instead</a>
            </p>
          )}
        </>
      )}
      {value === undefined && answer.problem === undefined && (
        <p className="loading">Looking into the lockers…</p>
      )}
      {value !== undefined && open === undefined && (
        <>
          <p className="sentence">No vessel is on file yet, so nothing is stowed.</p>
          <FirstSteps list="Import a stock list" />
        </>
      )}
      {value !== undefined && open !== undefined && (
        <>
          <p className="sentence" aria-live="polite">
            {sentenceOf(value, open)}
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
            <PlaceList places={value.places} open={open} />
            <div className="stowage-list">
              <StowForm place={open} />
              <Lots answer={value} picked={picked} />
              <Notices notices={value.notices} />
            </div>
          </div>
          <Cautions title="Read with every list" cautions={value.cautions} />
          {isPrinting && (
            <LockerSheets
              places={value.places}
              lots={value.lots}
              total={value.total}
              today={value.today}
              until={value.until}
              cautions={value.cautions}
            />
          )}
        </>
      )}
    </>
  );
}
