import { Download, Printer } from "lucide-react";
import { useEffect, useMemo } from "react";
import { Button } from "react-aria-components";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type { VoyageAnswer } from "../../../api/contract/voyage.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { Elapsed } from "../../components/elapsed.tsx";
import { dayText, sufficiencyText } from "../../components/figures.ts";
import { ImagineDeed } from "../../components/imagined/imagine-deed.tsx";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices, ProblemNote } from "../../components/notice.tsx";
import { TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { rowsAsCsv } from "../../components/table/rows-as-csv.ts";
import { useIsPrinting } from "../../components/use-printing.ts";
import { ask, post } from "../../data/ask.ts";
import { usePreferences } from "../../data/preferences.ts";
import { saveFile } from "../../data/save-file.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";
import { settledTerms } from "../crossing/money-terms.ts";
import { DepartureSection } from "./departure-section.tsx";
import { LegEditor } from "./leg-editor.tsx";
import { lineColumns } from "./line-columns.tsx";
import { VoyageForm } from "./voyage-form.tsx";
import { VoyagePicture } from "./voyage-picture.tsx";
import { voyageQuestion } from "./voyage-question.ts";

type WholeTier = VoyageAnswer["tiers"][number];

const wholeColumns = (departures: number): readonly Column<WholeTier>[] => [
  {
    id: "tier",
    name: "Tier",
    kind: "name",
    cell: ({ tier }) => <TierSign tier={tier} />,
    value: ({ tier }) => tier,
  },
  {
    id: "whole",
    name: "Whole voyage",
    kind: "number",
    className: "strong",
    cell: ({ whole }) => sufficiencyText(whole),
    value: ({ whole }) => whole,
    why: ({ tier, whole }) => ({
      what: `On at least ${sufficiencyText(whole)} of such voyages nothing of the ${tier} tier runs short from the first departure to the last arrival.`,
      how: `The chances of the ${departures} departures, multiplied. A level counts as if its delivery had come, and the level before as if it had not with the chance stated, so the product is on the safe side.`,
      change: "Surer targets at each departure: two departures at 0.95 make 0.90 together.",
    }),
  },
  {
    id: "target",
    name: "Target at each departure",
    kind: "number",
    cell: ({ target }) => sufficiencyText(target),
    value: ({ target }) => target,
  },
];

/** Every departure's kit as one list for a spreadsheet. */
function saveKit({ departures }: VoyageAnswer): void {
  const rows = departures.flatMap(({ from, departs, lines }) =>
    lines.filter(({ carry }) => carry > 0).map((line) => ({ ...line, from, departs })),
  );
  const columns: readonly Column<(typeof rows)[number]>[] = [
    { id: "from", name: "Leaving", cell: ({ from }) => from },
    { id: "departs", name: "On", cell: ({ departs }) => departs },
    { id: "tier", name: "Tier", cell: ({ tier }) => tier },
    ...lineColumns(true),
  ];
  saveFile("voyage-kit.csv", "text/csv", rowsAsCsv(columns, rows));
}

function Result({
  answer,
  waiting,
  stop,
  query,
}: {
  readonly answer: VoyageAnswer;
  readonly waiting: boolean;
  readonly stop: () => void;
  readonly query: ReadonlyMap<string, string>;
}) {
  const { units } = usePreferences();
  const overview = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const { departures } = answer;
  const columns = useMemo(() => wholeColumns(departures.length), [departures.length]);
  return (
    <>
      <p className="passage-line">
        {answer.vessel.name}, {answer.crossing.name}:{" "}
        {[departures[0]?.from, ...departures.map(({ to }) => to)].join(" – ")}.
      </p>
      <p className="paper-date">Reckoned and printed {dayText(new Date().toISOString())}.</p>
      <Answered sentence={answer.sentence} waiting={waiting} stop={stop} />
      <SideBySide comparison={answer.comparison} of="The voyage" />
      <ImagineDeed query={query} vessel={answer.vessel.id} />
      <div className="deed off-paper">
        <Button className="act" onPress={() => window.print()}>
          <Printer size={18} aria-hidden="true" /> Print the lists
        </Button>
        <Button className="quiet" onPress={() => saveKit(answer)}>
          <Download size={18} aria-hidden="true" /> Save the lists as CSV
        </Button>
        <a href={writeRoute("crossing", query)}>Back to the crossing</a>
      </div>
      {departures.length === 1 && (
        <p className="said off-paper">
          The crossing is one leg, with no port of call. Press “Call before” to put in a port, with
          its days; or import the crossing with its legs, one row to each.
        </p>
      )}
      <div className="pair pair-question">
        <VoyageForm answer={answer} overview={overview.value} query={query} />
        <LegEditor answer={answer} query={query} />
      </div>
      <Cautions title="Read with every kit" cautions={answer.cautions} />
      <section aria-labelledby="spans-title">
        <h2 id="spans-title">How far the pieces must last</h2>
        <VoyagePicture answer={answer} />
      </section>
      {departures.length > 1 && (
        <section aria-labelledby="whole-title">
          <h2 id="whole-title">How sure the whole voyage is</h2>
          <DataTable
            caption="Chance of running short of nothing on the whole voyage"
            columns={columns}
            rows={answer.tiers}
            rowKey={({ tier }) => tier}
          />
        </section>
      )}
      {departures.map((departure, at) => (
        <DepartureSection
          // biome-ignore lint/suspicious/noArrayIndexKey: a port may be left twice; its place tells which
          key={at}
          departure={departure}
          at={at}
          units={units}
        />
      ))}
      <section aria-labelledby="granted-title">
        <h2 id="granted-title">What this rests on</h2>
        <Notices notices={answer.notices} />
        <ul className="plain-list">
          {answer.assumptions.map((assumption) => (
            <li key={assumption}>{assumption}</li>
          ))}
        </ul>
      </section>
    </>
  );
}

/** What must be aboard at each departure of a voyage of legs, and what do its ports supply? */
export function VoyagePage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const request = voyageQuestion(query);
  const answer = useAnswer<VoyageAnswer>(`voyage ${JSON.stringify(request)}`, (signal) =>
    post<VoyageAnswer>("/api/voyage", request, signal),
  );
  const missing = JSON.stringify(settledTerms(query, usePreferences()));
  // The reader's own margin and rates go into the address, so that a shared one asks the same question.
  useEffect(() => {
    if (missing !== "{}") changeQuery(JSON.parse(missing) as Record<string, string>, true);
  }, [missing]);
  useIsPrinting();
  const { value } = answer;
  return (
    <>
      <h1>What must be aboard at each departure?</h1>
      {answer.problem !== undefined && (
        <>
          <ProblemNote problem={answer.problem} again={answer.again} />
          {value === undefined && (
            <p>
              <a className="act" href={writeRoute(query.size > 0 ? "voyage" : "import")}>
                {query.size > 0
                  ? "Ask about the next crossing instead"
                  : "Import a list of gear and parts"}
              </a>
            </p>
          )}
        </>
      )}
      {value === undefined ? (
        answer.waiting && (
          <p className="loading">
            Working out the kit at each departure… <Elapsed />
          </p>
        )
      ) : (
        <Result answer={value} waiting={answer.waiting} stop={answer.stop} query={query} />
      )}
    </>
  );
}
