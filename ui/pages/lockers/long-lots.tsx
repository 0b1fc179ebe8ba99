import { useMemo } from "react";
import type { StowageAnswer, StowageLot } from "../../../api/contract/stowage.contract.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { DataTable } from "../../components/table/data-table.tsx";
import { ask } from "../../data/ask.ts";
import { usePaged } from "../../data/use-paged.ts";
import { lotColumns } from "./lot-columns.tsx";
import { LotDeeds } from "./lot-deeds.tsx";

const emptyPlace = (index: number): StowageLot => ({
  id: `place ${index}`,
  part: { id: "", label: "Part", name: "" },
  maker: "",
  description: "",
  placeId: "",
  pieces: 0,
  lastDay: null,
  state: "usable",
  words: "",
});

/** Lots of a place that holds more than a page of them: fetched as they come into sight; one is opened by its link. */
export function LongLots({
  answer,
  picked,
}: {
  readonly answer: StowageAnswer;
  readonly picked: string | undefined;
}) {
  const place = answer.place?.id ?? "";
  const lots = usePaged<StowageLot>({
    key: `lots ${place}`,
    page: async (offset, limit, signal) => {
      const page = await ask<StowageAnswer>(
        `/api/stowage?place=${encodeURIComponent(place)}&offset=${offset}&limit=${limit}`,
        { signal },
      );
      return { total: page.total, rows: page.lots };
    },
    emptyPlace,
  });
  const columns = useMemo(
    () =>
      lotColumns(new Map(answer.places.map((one) => [one.id, one])), "long", answer.until, place),
    [answer, place],
  );
  const lot = lots.rows.find(({ id }) => id === picked);
  return (
    <>
      {lot !== undefined && (
        <section className="record" aria-label="The lot picked">
          <h2 className="record-title">
            {lot.part.name} {lot.description}
          </h2>
          <LotDeeds key={lot.id} lot={lot} places={answer.places} />
        </section>
      )}
      {lots.problem !== undefined && <ProblemNote problem={lots.problem} again={lots.again} />}
      <DataTable
        caption={`In ${answer.place?.path ?? ""}`}
        className="lots"
        columns={columns}
        rows={lots.total === 0 ? answer.lots : lots.rows}
        rowKey={({ id }) => id}
        rowClass={({ id }) => (id === picked ? "picked-row" : "")}
        onWindow={lots.onWindow}
      />
    </>
  );
}
