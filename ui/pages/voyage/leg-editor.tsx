import { useEffect, useState } from "react";
import { Button } from "react-aria-components";
import type { VoyageAnswer } from "../../../api/contract/voyage.contract.ts";
import { TextBox } from "../../components/text-box.tsx";
import { changeQuery } from "../../routing/route.ts";
import { LimitBox } from "../crossing/limit-box.tsx";
import { readLegs, type TypedLeg, writeLegs } from "./voyage-question.ts";

/** A leg while it is typed: any of its figures may still be lacking. */
type Draft = { readonly [K in keyof TypedLeg]?: TypedLeg[K] | undefined };

const isWhole = (leg: Draft): leg is TypedLeg =>
  leg.to !== undefined && leg.to !== "" && leg.days !== undefined;

const legsOf = ({ departures }: VoyageAnswer): readonly Draft[] =>
  departures.map(({ to, daysExpected, daysLongest }) => ({
    to,
    days: daysExpected,
    longestDays: daysLongest,
  }));

/** The legs of the voyage, each with its port and days; asked anew when every leg has both. */
export function LegEditor({
  answer,
  query,
}: {
  readonly answer: VoyageAnswer;
  readonly query: ReadonlyMap<string, string>;
}) {
  const typed = query.get("legs") ?? "";
  const text = JSON.stringify(typed === "" ? legsOf(answer) : readLegs(typed));
  const [drafts, setDrafts] = useState<readonly Draft[]>(() => JSON.parse(text) as Draft[]);
  useEffect(() => setDrafts(JSON.parse(text) as Draft[]), [text]);
  const become = (next: readonly Draft[]) => {
    setDrafts(next);
    if (next.every(isWhole)) changeQuery({ legs: writeLegs(next) });
  };
  const set = (at: number, part: Draft) =>
    become(drafts.map((leg, place) => (place === at ? { ...leg, ...part } : leg)));
  return (
    <section aria-labelledby="legs-title" className="question">
      <h2 id="legs-title">Legs and ports of call</h2>
      <div className="settings">
        <TextBox
          label="From"
          placeholder={answer.departures[0]?.from ?? "port of departure"}
          value={query.get("from") ?? ""}
          onChange={(from) => changeQuery({ from })}
        />
      </div>
      <ol className="legs">
        {drafts.map((leg, at) => {
          const call = answer.departures[at + 1]?.supplies;
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a leg is known by its place; its port may still be typed
            <li key={at}>
              <TextBox
                label={`Leg ${at + 1}, to`}
                placeholder="port"
                value={leg.to ?? ""}
                onChange={(to) => set(at, { to })}
              />
              <LimitBox
                label="Days expected"
                placeholder="days"
                most={3650}
                value={leg.days}
                onChange={(days) => set(at, { days })}
              />
              <LimitBox
                label="At longest"
                placeholder="a quarter more"
                most={3650}
                value={leg.longestDays}
                onChange={(longestDays) => set(at, { longestDays })}
              />
              {at < drafts.length - 1 && (
                <>
                  <LimitBox
                    label="Days in port"
                    placeholder={String(call?.stayDays ?? 3)}
                    most={3650}
                    value={leg.stayDays}
                    onChange={(stayDays) => set(at, { stayDays })}
                  />
                  <TextBox
                    label="Country"
                    placeholder={call?.country || "not known"}
                    value={leg.country ?? ""}
                    onChange={(country) => set(at, { country })}
                  />
                </>
              )}
              <Button
                className="quiet"
                aria-label={`Call at a port before ${leg.to ?? `leg ${at + 1}`}`}
                onPress={() => setDrafts([...drafts.slice(0, at), {}, ...drafts.slice(at)])}
              >
                Call before
              </Button>
              {drafts.length > 1 && (
                <Button
                  className="quiet"
                  aria-label={`Take out leg ${at + 1}`}
                  onPress={() => become(drafts.filter((_, place) => place !== at))}
                >
                  Take out
                </Button>
              )}
            </li>
          );
        })}
      </ol>
      {!drafts.every(isWhole) && (
        <p className="said" role="status">
          A leg needs a port and its days; until then the answer is the one before.
        </p>
      )}
      <p className="deed">
        <Button className="quiet" onPress={() => setDrafts([...drafts, {}])}>
          Add a last leg
        </Button>
        {typed !== "" && (
          <Button className="quiet" onPress={() => changeQuery({ legs: "", from: "" })}>
            Back to the crossing's own legs
          </Button>
        )}
      </p>
    </section>
  );
}
