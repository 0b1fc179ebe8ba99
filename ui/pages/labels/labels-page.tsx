import { Printer } from "lucide-react";
import { useEffect, useState } from "react";
import { Button } from "react-aria-components";
import type { StowageAnswer, StowagePlace } from "../../../api/contract/stowage.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { plural } from "../../components/figures.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { NumberBox } from "../../components/number-box.tsx";
import { ask } from "../../data/ask.ts";
import { usePreferences } from "../../data/preferences.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { changeQuery, writePlainRoute, writeRoute } from "../../routing/route.ts";
import { dealLabels, type LabelSheet, labelSheets } from "./label-sheets.ts";
import { SquareCode } from "./square-code.tsx";

const millimetres = (n: number) => `${Math.round(n * 100) / 100}mm`;

/** Gives the printer the sheet's paper without margins, for as long as labels are on the page. */
function useBarePaper(paper: LabelSheet["paper"]): void {
  useEffect(() => {
    const rule = new CSSStyleSheet();
    rule.replaceSync(`@page { size: ${paper}; margin: 0; }`);
    // Last, so that it wins over the paper of lists.
    const before = () => {
      document.adoptedStyleSheets = [
        ...document.adoptedStyleSheets.filter((sheet) => sheet !== rule),
        rule,
      ];
    };
    before();
    window.addEventListener("beforeprint", before);
    return () => {
      window.removeEventListener("beforeprint", before);
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== rule);
    };
  }, [paper]);
}

function Label({
  place,
  sheet,
  address,
}: {
  readonly place: StowagePlace;
  readonly sheet: LabelSheet;
  readonly address: string;
}) {
  return (
    <div className="label" data-small={sheet.height < 26 || undefined}>
      <SquareCode
        text={`${address}/${writePlainRoute("lockers", [["locker", place.id]])}`}
        name={`Code of ${place.path}`}
      />
      <p className="label-words">
        <strong>{place.name}</strong>
        <br />
        {place.path.split(" › ").slice(0, -1).join(" › ")}
      </p>
    </div>
  );
}

/** Labels to hang on lockers and bins: a name to read, a code that opens the locker on a phone. */
export function LabelsPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const set = usePreferences();
  const asked = query.get("locker");
  const stowage = useAnswer<StowageAnswer>(`stowage places ${asked ?? ""}`, (signal) =>
    ask<StowageAnswer>(
      `/api/stowage?limit=0${asked === undefined ? "" : `&place=${encodeURIComponent(asked)}`}`,
      { signal },
    ),
  );
  const [skip, setSkip] = useState(0);
  const places = stowage.value?.places ?? [];
  const open = places.find(({ id }) => id === asked);
  const chosen = places.filter(
    ({ depth, path }) =>
      depth > 0 && (open === undefined || `${path} › `.startsWith(`${open.path} › `)),
  );
  const sheet =
    labelSheets.find(({ id }) => id === query.get("sheet")) ??
    labelSheets.find(({ paper }) => paper === set.paper) ??
    labelSheets[0];
  useBarePaper(sheet?.paper ?? "A4");
  const address = set.labelAddress === "" ? window.location.origin : set.labelAddress;
  if (sheet === undefined) return null;
  const isWaiting = stowage.value === undefined && stowage.problem === undefined;
  // Of a large fleet only one vessel's lockers come: the others stand as names to choose.
  const [first, ...more] = [...new Set(chosen.map(({ vessel }) => vessel))];
  const whole = places.find(({ id }) => id === first && more.length === 0)?.name ?? "every vessel";
  const sheets = dealLabels(chosen, sheet, skip);
  return (
    <>
      <h1>Labels for lockers and bins</h1>
      {stowage.problem !== undefined && (
        <ProblemNote problem={stowage.problem} again={stowage.again} />
      )}
      {isWaiting ? (
        <p className="loading">Fetching the lockers…</p>
      ) : (
        <p className="sentence">
          {plural(chosen.length, "label")} on {plural(sheets.length, "sheet")} of {sheet.paper}
          {open === undefined ? "" : `, for what lies in ${open.path}`}.
        </p>
      )}
      <div className="settings off-paper">
        <Choice
          label="Places within"
          value={open?.id ?? "all"}
          groups={[
            {
              name: "",
              options: [
                { id: "all", name: open === undefined ? whole : "every vessel" },
                ...places.map(({ id, path }) => ({ id, name: path })),
              ],
            },
          ]}
          onChange={(id) => changeQuery({ locker: id === "all" ? "" : id })}
        />
        <Choice
          label="Sheet of labels"
          value={sheet.id}
          groups={[{ name: "", options: labelSheets.map(({ id, name }) => ({ id, name })) }]}
          onChange={(id) => changeQuery({ sheet: id })}
        />
        <NumberBox
          label="Labels of the first sheet already used"
          value={skip}
          min={0}
          max={sheet.across * sheet.down - 1}
          onChange={setSkip}
        />
        <Button className="act" isDisabled={chosen.length === 0} onPress={() => window.print()}>
          <Printer size={18} aria-hidden="true" /> Print
        </Button>
      </div>
      <p className="said off-paper">
        The codes lead to {address}.{" "}
        {address.includes("127.0.0.1") || address.includes("localhost")
          ? "Phones cannot reach that: set the address on the boat's network under Settings first."
          : ""}{" "}
        Print at full size (100 %), on plain paper first, and hold it against your sheet.
      </p>
      {chosen.length === 0 && !isWaiting && (
        <p>
          No locker is on file yet. <a href={writeRoute("lockers")}>Add one</a> first.
        </p>
      )}
      <section
        className="label-sheets"
        aria-label="Sheets of labels"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling box must be reachable by keyboard (WCAG 2.1.1)
        tabIndex={0}
      >
        {sheets.map((labels, number) => (
          <section
            // biome-ignore lint/suspicious/noArrayIndexKey: sheets have no id and never reorder
            key={number}
            className="label-sheet"
            data-paper={sheet.paper}
            aria-label={`Sheet ${number + 1}`}
            style={{
              width: sheet.paper === "A4" ? "210mm" : "215.9mm",
              height: sheet.paper === "A4" ? "297mm" : "279.4mm",
            }}
          >
            {labels.map((place, index) =>
              place === undefined ? null : (
                <div
                  key={place.id}
                  className="label-place"
                  style={{
                    left: millimetres(sheet.left + (index % sheet.across) * sheet.pitch),
                    top: millimetres(sheet.top + Math.floor(index / sheet.across) * sheet.height),
                    width: millimetres(sheet.width),
                    height: millimetres(sheet.height),
                  }}
                >
                  <Label place={place} sheet={sheet} address={address} />
                </div>
              ),
            )}
          </section>
        ))}
      </section>
    </>
  );
}
