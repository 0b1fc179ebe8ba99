import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import type { DoubtAnswer } from "../../../api/contract/doubt.contract.ts";
import type { KitRequest } from "../../../api/contract/kit.contract.ts";
import { Drawing } from "../../charts/drawing.tsx";
import { layOutTornado } from "../../charts/tornado.ts";
import { objectiveText, plural } from "../../components/figures.ts";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { ProblemNote } from "../../components/notice.tsx";
import { Picture } from "../../components/picture.tsx";
import { EvidenceSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { useWidth } from "../../components/use-width.ts";
import type { Explanation } from "../../components/why.tsx";
import { post } from "../../data/ask.ts";
import { preferences } from "../../data/preferences.ts";
import { useAnswer } from "../../data/use-answer.ts";

type Rate = DoubtAnswer["rates"][number];

const drawn = 12;

const signed = (amount: number, { objective, currency }: DoubtAnswer): string =>
  `${amount > 0 ? "+" : amount < 0 ? "−" : ""}${objectiveText(Math.abs(amount), objective, currency, preferences().units)}`;

const swungText = (swung: Rate["halved"], answer: DoubtAnswer): string =>
  swung.feasible ? (swung.cost === 0 ? "no change" : signed(swung.cost, answer)) : "out of reach";

/** Why the kit changes so when one rate is another. */
const whySwung = (
  rate: Rate,
  how: "half" | "twice",
  swung: Rate["halved"],
  answer: DoubtAnswer,
): Explanation => ({
  what: swung.feasible
    ? `If ${rate.part.name} fails ${how === "half" ? "half" : "twice"} as often, the kit that reaches the same targets changes by ${swungText(swung, answer)} and ${plural(Math.abs(swung.pieces), "piece")} ${swung.pieces < 0 ? "less" : "more"}.`
    : "At that rate no stock reaches the target.",
  how: `The rate is ${how === "half" ? "halved" : "doubled"}, everything else left as it is, and the whole kit solved again.`,
  rests: rate.words,
  change: `Pieces that change: ${
    swung.changes.length === 0
      ? "none"
      : swung.changes
          .slice(0, 6)
          .map(({ part, from, to }) => `${part.name} from ${from} to ${to}`)
          .join(", ")
  }${swung.changes.length > 6 ? " and others" : ""}.`,
});

const columnsOf = (answer: DoubtAnswer): readonly Column<Rate>[] => [
  {
    id: "part",
    name: "Part",
    kind: "name",
    cell: ({ part, description }) => (
      <>
        {part.name} <span className="part-description">{description}</span>
      </>
    ),
    value: ({ part, description }) => `${part.name} ${description}`,
  },
  { id: "gear", name: "Gear", cell: ({ gear }) => gear },
  {
    id: "evidence",
    name: "Evidence",
    cell: ({ evidence }) => <EvidenceSign evidence={evidence} />,
    value: ({ evidence }) => evidence,
  },
  {
    id: "halved",
    name: "If half as often",
    kind: "number",
    cell: ({ halved }) => swungText(halved, answer),
    value: ({ halved }) => halved.cost,
    why: (rate) => whySwung(rate, "half", rate.halved, answer),
  },
  {
    id: "doubled",
    name: "If twice as often",
    kind: "number",
    cell: ({ doubled }) => swungText(doubled, answer),
    value: ({ doubled }) => doubled.cost,
    why: (rate) => whySwung(rate, "twice", rate.doubled, answer),
  },
  { id: "words", name: "Rests on", kind: "wordy", cell: ({ words }) => words },
];

function Tornado({ answer }: { readonly answer: DoubtAnswer }) {
  const { frame, width } = useWidth(280, 900);
  const columns = useMemo(() => columnsOf(answer), [answer]);
  const input = useMemo(() => {
    const rates = answer.rates.slice(0, drawn);
    const [first] = rates;
    return {
      swings: rates.map(({ part, description, evidence, halved, doubled }) => ({
        name: `${part.name} ${description}`,
        isAssumed: evidence === "assumed",
        halved: halved.cost,
        doubled: doubled.cost,
      })),
      words:
        first === undefined
          ? "No rate changes the kit."
          : `${plural(answer.ratesThatMatter, "rate")} of ${answer.ratesInAll} would change the kit if halved or doubled; ${first.part.name} ${first.description} the most: ${swungText(first.halved, answer)} if it fails half as often, ${swungText(first.doubled, answer)} if twice.`,
      changeText: (change: number) => signed(change, answer),
    };
  }, [answer]);
  const scene = useMemo(() => layOutTornado({ ...input, width }), [input, width]);
  return (
    <Picture
      name="rates-that-matter"
      caption={`${input.words} Filled bars: twice as often; open bars: half as often.`}
      scene={() => layOutTornado({ ...input, width: 900 })}
      table={{
        caption: "Rates that matter most",
        columns,
        rows: answer.rates,
        rowKey: ({ part, gear }) => `${part.id} ${gear}`,
      }}
    >
      <div ref={frame}>
        <Drawing scene={scene} />
      </div>
    </Picture>
  );
}

/** What if a rate is wrong? Asked for by a press, as it takes some seconds. */
export function DoubtSection({ request }: { readonly request: KitRequest }) {
  const [asked, setAsked] = useState(false);
  const answer = useAnswer<DoubtAnswer | undefined>(
    asked ? `doubt ${JSON.stringify(request)}` : "doubt unasked",
    (signal) =>
      asked ? post<DoubtAnswer>("/api/doubt", request, signal) : Promise.resolve(undefined),
  );
  return (
    <section aria-labelledby="doubt-title" className="screen-only">
      <h2 id="doubt-title">What if a rate is wrong?</h2>
      {answer.problem !== undefined && (
        <ProblemNote problem={answer.problem} again={answer.again} />
      )}
      {answer.value === undefined ? (
        asked && answer.waiting ? (
          <p className="loading" role="status">
            Reckoning the kit again with each rate halved and doubled…{" "}
            <Button className="quiet" onPress={() => setAsked(false)}>
              Stop
            </Button>
          </p>
        ) : (
          <p>
            <Button className="quiet" onPress={() => setAsked(true)}>
              Halve and double every rate
            </Button>
          </p>
        )
      ) : (
        <>
          <p>{answer.value.sentence}</p>
          <SideBySide comparison={answer.value.comparison} of="what doubt costs" />
          <Tornado answer={answer.value} />
          <p className="said">{answer.value.rough.words}</p>
        </>
      )}
    </section>
  );
}
