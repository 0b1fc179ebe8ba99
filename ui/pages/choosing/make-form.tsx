import { useEffect, useState } from "react";
import { Button, FieldError, Form, Input, Label, TextField } from "react-aria-components";
import type { TypedModel, TypedReading } from "../../../api/contract/what-if.contract.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { massUnit } from "../../components/units.ts";
import { send } from "../../data/ask.ts";
import { usePreferences } from "../../data/preferences.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { CsvBox } from "./csv-box.tsx";
import { ListReadingShown } from "./list-reading.tsx";
import { type DraftFaults, type MakeDraft, makeOfDraft } from "./make-draft.ts";
import { type KindNeeds, NeedsFields } from "./needs-fields.tsx";

/** Milliseconds without a keystroke after which a pasted list is read. */
const pause = 400;

/** The value once it has stayed the same for a moment. */
function usePaused<T>(value: T): T {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = window.setTimeout(() => setSettled(value), pause);
    return () => window.clearTimeout(timer);
  }, [value]);
  return settled;
}

const partsExample = "Part no;Description;Qty;If it fails;Failure rate;Per\n…";
const offersExample = "Supplier;Part no;Price;Currency;Lead time\n…";

/** A make that is on no list here: what it costs, what it can do, which parts it takes, who sells them. */
export function MakeForm({
  draft,
  kind,
  onDraft,
  onDone,
  onLeave,
}: {
  readonly draft: MakeDraft;
  readonly kind: KindNeeds;
  readonly onDraft: (draft: MakeDraft) => void;
  readonly onDone: (make: TypedModel) => void;
  readonly onLeave: () => void;
}) {
  const { units } = usePreferences();
  const [faults, setFaults] = useState<DraftFaults>({});
  const { parts, offers, currency } = draft;
  const preview = usePaused(
    JSON.stringify({
      maker: draft.maker.trim() || "a new make",
      designation: draft.designation.trim() || "as typed here",
      ...(/^[A-Za-z]{3}$/.test(currency.trim()) ? { currency: currency.trim().toUpperCase() } : {}),
      ...(parts.trim() === "" ? {} : { partsCsv: parts }),
      ...(offers.trim() === "" ? {} : { offersCsv: offers }),
    }),
  );
  // Not among the answers kept for when the program is away: a list being typed would push those out.
  const reading = useAnswer<TypedReading>(
    `choose reading ${preview}`,
    () => send<TypedReading>("/api/choose/reading", JSON.parse(preview)),
    false,
  );
  const readingOf = (list: "parts" | "offers") =>
    reading.problem === undefined
      ? reading.value?.lists.find((one) => one.list === list)
      : undefined;
  const [partsRead, offersRead] = [readingOf("parts"), readingOf("offers")];
  const set = (changes: Partial<MakeDraft>) => onDraft({ ...draft, ...changes });
  const field = (
    name: "maker" | "designation" | "price" | "currency" | "mass",
    label: string,
    placeholder: string,
  ) => (
    <TextField
      className="field"
      value={draft[name]}
      onChange={(text) => {
        set({ [name]: text });
        // What a price may be hangs on its currency.
        const settled: readonly string[] = name === "currency" ? [name, "price"] : [name];
        setFaults(
          Object.fromEntries(Object.entries(faults).filter(([field]) => !settled.includes(field))),
        );
      }}
      isInvalid={faults[name] !== undefined}
      isRequired={name === "maker" || name === "designation"}
      validationBehavior="aria"
    >
      <Label>{label}</Label>
      <Input className="text-input" placeholder={placeholder} />
      <FieldError className="field-fault">{faults[name]}</FieldError>
    </TextField>
  );
  const tell = () => {
    const found = makeOfDraft(draft, units);
    if ("faults" in found) setFaults(found.faults);
    else if (reading.problem === undefined) onDone(found.make);
  };
  return (
    <Form
      className="make-form"
      aria-label={draft.instead === "" ? "A make typed in" : `Edit ${draft.designation}`}
      onSubmit={(event) => {
        event.preventDefault();
        const wrong = event.currentTarget.querySelector<HTMLElement>('[aria-invalid="true"]');
        if (wrong === null) tell();
        else wrong.focus();
      }}
    >
      <h3>{draft.instead === "" ? "A make that is not on file" : `Edit ${draft.designation}`}</h3>
      <p className="said">
        It lives in this question only; nothing is written to the graph. Long lists are kept in this
        browser.
      </p>
      <div className="settings needs">
        {field("maker", "Maker", "")}
        {field("designation", "What its maker calls it", "")}
        {field("price", "Price of one", "not known")}
        {field("currency", "in, three letters", "EUR")}
        {field("mass", `Weight of one, ${massUnit(units)}`, "not known")}
      </div>
      <h4>What it can do</h4>
      <NeedsFields needs={draft.can} kind={kind} asks={false} onChange={(can) => set({ can })} />
      <div className="lists">
        <CsvBox
          label="Its parts list, as CSV"
          example={partsExample}
          text={parts}
          onChange={(text) => set({ parts: text })}
        >
          {parts.trim() === "" ? (
            <p className="said">
              Without one its spares kit is unknown, and it cannot be ranked. A rate, a life, or
              “often”, “now and then”, “seldom” for each part says how many it needs.
            </p>
          ) : (
            partsRead !== undefined && <ListReadingShown reading={partsRead} />
          )}
        </CsvBox>
        <CsvBox
          label="Who sells its parts, as CSV"
          example={offersExample}
          text={offers}
          onChange={(text) => set({ offers: text })}
        >
          {offersRead !== undefined && offers.trim() !== "" && (
            <ListReadingShown reading={offersRead} />
          )}
        </CsvBox>
      </div>
      {reading.problem !== undefined && <ProblemNote problem={reading.problem} />}
      <div className="deed">
        <Button type="submit" className="act">
          {draft.instead === "" ? "Weigh it" : "Weigh it as edited"}
        </Button>
        <Button className="quiet" onPress={onLeave}>
          Leave it
        </Button>
      </div>
    </Form>
  );
}
