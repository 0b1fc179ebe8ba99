import { useState } from "react";
import { Button, Form, Input, Label, SearchField } from "react-aria-components";
import type { FindAnswer, OverviewAnswer } from "../../../api/contract/find.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { dayText, plural, wholeText } from "../../components/figures.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { ScrollTable } from "../../components/scroll-table.tsx";
import { ask } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";

const countOf = (overview: OverviewAnswer, label: string) => overview.counts[label] ?? 0;

function overviewSentence(overview: OverviewAnswer): string {
  const items = countOf(overview, "FittedItem");
  if (items === 0 && overview.vessels.length === 0)
    return "Nothing is here yet. Bring in a list of the gear aboard, of its parts, or both in one.";
  return (
    `${plural(overview.vessels.length, "vessel")} with ${plural(items, "fitted item")} of ` +
    `${plural(countOf(overview, "Model"), "model")}, ${plural(countOf(overview, "Part"), "part")} and ` +
    `${plural(countOf(overview, "Supplier"), "supplier")} are on file; ` +
    `${plural(overview.crossings.length, "crossing")} to provide for.`
  );
}

/** Find anything by number, name, maker or locker; the words stand in the address. */
function Finder({ text }: { readonly text: string }) {
  const [typed, setTyped] = useState(text);
  const answer = useAnswer<FindAnswer | undefined>(text, (signal) =>
    text === ""
      ? Promise.resolve(undefined)
      : ask<FindAnswer>(`/api/find?text=${encodeURIComponent(text)}`, { signal }),
  );
  return (
    <section aria-labelledby="finder-title">
      <h2 id="finder-title">Where is it?</h2>
      <Form
        className="line-form"
        onSubmit={(event) => {
          event.preventDefault();
          changeQuery({ find: typed.trim() });
        }}
      >
        <SearchField className="field" value={typed} onChange={setTyped}>
          <Label>Part number, name, maker or locker</Label>
          <Input className="text-input" />
        </SearchField>
        <Button type="submit" className="act">
          Find
        </Button>
      </Form>
      {answer.problem !== undefined && <ProblemNote problem={answer.problem} />}
      {answer.value !== undefined && (
        <>
          <p className="said" aria-live="polite">
            {answer.value.sentence}
          </p>
          {answer.value.hits.length > 0 && (
            <ScrollTable caption="What was found" captionHidden className="tall">
              <thead>
                <tr>
                  <th scope="col">Name</th>
                  <th scope="col">Kind</th>
                  <th scope="col">Detail</th>
                  <th scope="col">Aboard</th>
                </tr>
              </thead>
              <tbody>
                {answer.value.hits.map((hit) => (
                  <tr key={hit.id}>
                    <th scope="row">{hit.name}</th>
                    <td>{hit.label}</td>
                    <td className="wordy">{hit.detail}</td>
                    <td className="wordy">
                      {(hit.aboard ?? []).map((lot) => (
                        <div key={lot.vessel + lot.place + lot.words}>{lot.words}</div>
                      ))}
                    </td>
                  </tr>
                ))}
              </tbody>
            </ScrollTable>
          )}
          {answer.value.hits.length > 0 && (
            <Cautions title="Read with every list" cautions={answer.value.cautions} />
          )}
        </>
      )}
    </section>
  );
}

/** What is here, and the first useful step. */
export function StartPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const answer = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const overview = answer.value;
  if (overview === undefined)
    return (
      <>
        <h1>What is on file?</h1>
        {answer.problem === undefined ? (
          <p className="loading">Looking…</p>
        ) : (
          <ProblemNote problem={answer.problem} again={answer.again} />
        )}
      </>
    );
  const isEmpty = overview.vessels.length === 0 && countOf(overview, "Part") === 0;
  return (
    <>
      <h1>What is on file?</h1>
      <p className="sentence">{overviewSentence(overview)}</p>
      {isEmpty ? (
        <section className="first-step">
          <p>
            Any spreadsheet saved as CSV will do, headings in whatever language and order you keep
            them. You see what it would change before anything is written, and can undo it whole.
          </p>
          <p>
            <a className="act" href={writeRoute("import")}>
              Import a first list
            </a>
          </p>
        </section>
      ) : (
        <>
          <section aria-labelledby="crossings-title">
            <h2 id="crossings-title">Crossings</h2>
            {overview.crossings.length === 0 ? (
              <p>
                None yet. <a href={writeRoute("crossing")}>Plan a kit by days alone</a>, or import a
                list with a crossing in it.
              </p>
            ) : (
              <ul className="passages">
                {overview.crossings.map((crossing) => (
                  <li key={crossing.id}>
                    <h3>{crossing.name}</h3>
                    <p>
                      {crossing.departs === null
                        ? "No departure day"
                        : `Departs ${dayText(crossing.departs)}`}
                      {crossing.daysExpected === null
                        ? ""
                        : `, ${plural(crossing.daysExpected, "day")} expected`}
                      {crossing.daysLongest === null ? "" : `, ${crossing.daysLongest} at longest`}
                    </p>
                    <ul className="vessel-links">
                      {(crossing.vessels.length > 0
                        ? overview.vessels.filter(
                            (vessel) =>
                              crossing.vessels.includes(vessel.id) ||
                              crossing.vessels.includes(vessel.name),
                          )
                        : overview.vessels
                      ).map((vessel) => (
                        <li key={vessel.id}>
                          <a
                            href={writeRoute("crossing", [
                              ["crossing", crossing.id],
                              ["vessel", vessel.id],
                            ])}
                          >
                            Kit for {vessel.name}
                          </a>
                        </li>
                      ))}
                    </ul>
                  </li>
                ))}
              </ul>
            )}
          </section>
          <Finder key={query.get("find") ?? ""} text={query.get("find") ?? ""} />
          <div className="pair">
            <section aria-labelledby="vessels-title">
              <h2 id="vessels-title">Vessels</h2>
              <ScrollTable caption="Vessels and their gear" captionHidden>
                <thead>
                  <tr>
                    <th scope="col">Vessel</th>
                    <th scope="col" className="number">
                      Fitted items
                    </th>
                    <th scope="col">Alike?</th>
                  </tr>
                </thead>
                <tbody>
                  {overview.vessels.map((vessel) => (
                    <tr key={vessel.id}>
                      <th scope="row">{vessel.name}</th>
                      <td className="number">{wholeText(vessel.items)}</td>
                      <td>
                        <a
                          className="row-link"
                          href={writeRoute("commonality", [["vessel", vessel.id]])}
                        >
                          Commonality<span className="hidden"> of {vessel.name}</span>
                        </a>
                      </td>
                    </tr>
                  ))}
                </tbody>
              </ScrollTable>
            </section>
            <section aria-labelledby="gear-title">
              <h2 id="gear-title">Gear</h2>
              <ScrollTable caption="Gear by category" captionHidden>
                <thead>
                  <tr>
                    <th scope="col">Category</th>
                    <th scope="col" className="number">
                      Models
                    </th>
                    <th scope="col" className="number">
                      Fitted
                    </th>
                  </tr>
                </thead>
                <tbody>
                  {overview.categories.map((row) => (
                    <tr key={row.category}>
                      <th scope="row">
                        <a
                          className="row-link"
                          href={writeRoute("commonality", [["category", row.category]])}
                        >
                          {row.category}
                        </a>
                      </th>
                      <td className="number">{wholeText(row.models)}</td>
                      <td className="number">{wholeText(row.items)}</td>
                    </tr>
                  ))}
                </tbody>
              </ScrollTable>
            </section>
          </div>
        </>
      )}
    </>
  );
}
