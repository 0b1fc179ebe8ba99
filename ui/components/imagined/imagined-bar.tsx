import { X } from "lucide-react";
import { Button } from "react-aria-components";
import type { ImaginedAnswer } from "../../../api/contract/what-if.contract.ts";
import { post } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { changeQuery, type PageName } from "../../routing/route.ts";
import { ProblemNote } from "../notice.tsx";
import { type Change, readImagined, whatIfOf, writeImagined } from "./imagined-changes.ts";

/** Pages whose answers can be asked for a boat as imagined. */
const asking: readonly PageName[] = [
  "overview",
  "crossing",
  "commonality",
  "suppliers",
  "order",
  "choosing",
];

/** What stands until the program has said it in names, or where it cannot. */
const kindWords: Readonly<Record<Change["kind"], string>> = {
  add: "More gear.",
  replace: "Other gear in an item's place.",
  remove: "Gear taken away.",
  loseSuppliers: "A supplier gone.",
  rates: "A part that fails more or less often.",
};

/** Words of changes as last said, so that dropping one leaves the others standing as they were. */
const lastSaid = new Map<string, string>();

/** Keeps what the program said of each change; it counts within each kind, the address in the order of imagining. */
function keepWords(changes: readonly Change[], answer: ImaginedAnswer): void {
  const places = new Map<string, number>();
  for (const change of changes) {
    const at = places.get(change.kind) ?? 0;
    places.set(change.kind, at + 1);
    const said = answer.changes.find((one) => one.list === change.kind && one.at === at);
    if (said !== undefined) lastSaid.set(writeImagined([change]), said.words);
  }
}

/** Says on every page what is imagined, and drops it, one by one or all; on paper too. */
export function ImaginedBar({
  page,
  query,
}: {
  readonly page: PageName;
  readonly query: ReadonlyMap<string, string>;
}) {
  const changes = readImagined(query);
  const whatIf = whatIfOf(query);
  const answer = useAnswer<ImaginedAnswer | undefined>(
    `imagined ${JSON.stringify(whatIf ?? null)}`,
    async (signal) => {
      if (whatIf === undefined) return undefined;
      const said = await post<ImaginedAnswer>("/api/imagined", { whatIf }, signal);
      keepWords(changes, said);
      return said;
    },
  );
  if (changes.length === 0) return null;
  const isAsking = asking.includes(page);
  const keep = (rest: readonly Change[]) => changeQuery({ imagine: writeImagined(rest) });
  return (
    <section className={isAsking ? "imagined" : "imagined imagined-aside"} aria-label="Imagined">
      <div className="imagined-head">
        <p>
          <strong>Imagined; nothing is written.</strong>{" "}
          {isAsking
            ? "What stands below is the answer after:"
            : `This page shows things as they are, without the ${changes.length === 1 ? "change" : `${changes.length} changes`} imagined.`}
        </p>
        <Button className="quiet off-paper" onPress={() => keep([])}>
          {changes.length === 1 ? "Back to things as they are" : "Drop all of it"}
        </Button>
      </div>
      {isAsking && (
        <ul aria-live="polite">
          {changes.map((change, at) => {
            const key = writeImagined([change]);
            const words = lastSaid.get(key) ?? kindWords[change.kind];
            return (
              <li key={key}>
                <span>{words}</span>
                <Button
                  className="plain off-paper"
                  aria-label={`Drop: ${words}`}
                  onPress={() => keep(changes.filter((_, other) => other !== at))}
                >
                  <X size={18} aria-hidden="true" />
                </Button>
              </li>
            );
          })}
        </ul>
      )}
      {isAsking && answer.problem !== undefined && <ProblemNote problem={answer.problem} />}
    </section>
  );
}
