import { useState } from "react";
import { ComboBox, Input, Label, ListBox, ListBoxItem, Popover } from "react-aria-components";
import type { RecordDocument, RecordsAnswer } from "../../api/contract/records.contract.ts";
import { listRecords } from "../data/records-client.ts";
import { useAnswer } from "../data/use-answer.ts";
import { useRested } from "./use-rested.ts";

/** A record picked by name. */
export interface Picked {
  readonly id: string;
  readonly name: string;
}

const mostShown = 20;

/** What a record is and belongs to, in words: description or category; maker, vessel, model. */
const belongsTo = ({ owners, properties }: RecordDocument): string =>
  [properties["description"], properties["category"], ...owners.map(({ name }) => name)]
    .filter((word) => typeof word === "string" && word !== "")
    .join(" · ");

/** A record of one kind, searched by name while one types; nothing typed shows the first of them. */
export function PickBox({
  label,
  of,
  picked,
  onPick,
  isFit = () => true,
}: {
  readonly label: string;
  /** The label of the records, as in the schema. */
  readonly of: "FittedItem" | "Model" | "Part" | "Supplier" | "RequiredFunction";
  readonly picked: Picked | undefined;
  readonly onPick: (picked: Picked | undefined) => void;
  readonly isFit?: (record: RecordDocument) => boolean;
}) {
  const [typed, setTyped] = useState(picked?.name ?? "");
  const rested = useRested(typed);
  const text = rested === picked?.name ? "" : rested;
  const { value, problem } = useAnswer<RecordsAnswer>(`pick ${of} ${text}`, (signal) =>
    listRecords({ label: of, text, limit: 200 }, signal),
  );
  const rows = (value?.rows ?? []).filter(isFit).slice(0, mostShown);
  const empty =
    problem?.detail ?? (value === undefined ? "Looking…" : "Nothing here is called so.");
  return (
    <ComboBox
      className="field pick-box"
      inputValue={typed}
      onInputChange={(next) => {
        setTyped(next);
        if (picked !== undefined && next !== picked.name) onPick(undefined);
      }}
      value={picked?.id ?? null}
      onChange={(key) => {
        const row = rows.find(({ id }) => id === key);
        if (row === undefined) return;
        setTyped(row.name);
        onPick({ id: row.id, name: row.name });
      }}
      onBlur={() => setTyped(picked?.name ?? "")}
      defaultFilter={() => true}
      allowsEmptyCollection
      menuTrigger="focus"
    >
      <Label>{label}</Label>
      <Input className="text-input" placeholder="Type to search" />
      <Popover className="popover" offset={2}>
        <ListBox
          className="options"
          renderEmptyState={() => <p className="option-empty">{empty}</p>}
        >
          {rows.map((row) => (
            <ListBoxItem
              key={row.id}
              id={row.id}
              textValue={`${row.name} ${belongsTo(row)}`}
              className="option"
            >
              <span className="option-name">{row.name}</span>
              <span className="option-meaning">{belongsTo(row)}</span>
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </ComboBox>
  );
}
