import { useState } from "react";
import { layOutCostBars } from "../../charts/cost-bars.ts";
import { Drawing } from "../../charts/drawing.tsx";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Picture } from "../../components/picture.tsx";
import type { Column } from "../../components/table/column.ts";
import { WhyNumber } from "../../components/why.tsx";
import { ValueEditor } from "../records/value-editor.tsx";

/** A number that opens its explanation. */
export const WhySample = () => (
  <p>
    Not short on{" "}
    <WhyNumber
      name="With the kit, passage"
      explain={() => ({
        what: "On 0.95 of such crossings nothing of the tier runs short.",
        how: "The chances of all its parts, multiplied.",
        rests: "A third of the expected demand is assumed.",
        change: "Another target, or better evidence.",
      })}
    >
      0.95
    </WhyNumber>{" "}
    of crossings: press the number for its reasons.
  </p>
);

const field = {
  property: "massKg",
  kind: "real",
  unit: "kg",
  meaning: "Mass of one piece",
  required: false,
} as const;

/** A value corrected in place: kept, or refused with the reason beside it. */
export function EditSample() {
  const [value, setValue] = useState<number | undefined>(0.09);
  return (
    <dl className="record-values">
      <div>
        <dt>mass</dt>
        <dd>
          <ValueEditor
            field={field}
            value={value}
            properties={{}}
            onSave={async (text) => {
              const next = text === null ? undefined : Number(text);
              if (next !== undefined && !(next >= 0))
                throw new Error(`A mass is a number of kilograms; received “${text}”. Write 0.25.`);
              setValue(next);
            }}
          />
        </dd>
      </div>
    </dl>
  );
}

interface Bar {
  readonly name: string;
  readonly price: number;
  readonly kit: number;
  readonly isCheapest: boolean;
}

const bars: readonly Bar[] = [
  { name: "First make", price: 1980, kit: 3200, isCheapest: true },
  { name: "Second make", price: 2140, kit: 3100, isCheapest: false },
];

const columns: readonly Column<Bar>[] = [
  { id: "name", name: "Make", kind: "name", cell: ({ name }) => name },
  { id: "price", name: "Gear, EUR", kind: "number", cell: ({ price }) => price },
  { id: "kit", name: "Kit, EUR", kind: "number", cell: ({ kit }) => kit },
];

const words = "The first make costs 60 EUR less with its spares.";

/** The frame of every picture: the finding, the drawing, the same as a table, files to keep. */
export const PictureSample = () => {
  const scene = layOutCostBars(bars, 260, words, (amount) => `${amount} EUR`);
  return (
    <Picture
      name="sample"
      caption={words}
      scene={() => scene}
      table={{ caption: "Two makes", columns, rows: bars, rowKey: ({ name }) => name }}
    >
      <Drawing scene={scene} />
    </Picture>
  );
};

/** An answer before and after what was imagined. */
export const SideSample = () => (
  <SideBySide
    of="a kit"
    comparison={{
      changes: ["Port primary is taken out."],
      sentence: "With the change the kit costs 40.50 EUR less.",
      figures: [
        {
          figure: "kit to buy",
          kind: "money",
          currency: "EUR",
          before: 20_050,
          after: 16_000,
          difference: -4_050,
        },
        {
          figure: "not short, passage",
          kind: "chance",
          before: 0.95,
          after: 0.9612,
          difference: 0.0112,
        },
        { figure: "parts without evidence", kind: "count", before: 3, after: 3, difference: 0 },
      ],
      parts: [{ part: "PAWL-1", before: 4, after: 2, difference: -2 }],
      listed: [{ what: "Port primary, yearly grease", before: "due on 1 May", after: null }],
      notices: [],
    }}
  />
);
