import { useState } from "react";
import { Button, Form, Input, Label, TextField } from "react-aria-components";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import { ask } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { Choice } from "../choice.tsx";
import { NumberBox } from "../number-box.tsx";
import { PickBox, type Picked } from "../pick-box.tsx";
import type { Change } from "./imagined-changes.ts";

const kinds = [
  { id: "replace", name: "another model", meaning: "New gear in the place of what is fitted." },
  { id: "add", name: "more gear", meaning: "Gear where there is none now." },
  { id: "remove", name: "gear gone", meaning: "An item taken out, with nothing in its place." },
  { id: "rates", name: "a failure rate", meaning: "A part that fails more or less often." },
  { id: "loseSuppliers", name: "a supplier gone", meaning: "None of its offers count." },
] as const;

type Kind = (typeof kinds)[number]["id"];

interface Typed {
  readonly kind: Kind;
  readonly item?: Picked | undefined;
  readonly model?: Picked | undefined;
  readonly part?: Picked | undefined;
  readonly supplier?: Picked | undefined;
  readonly serves?: Picked | undefined;
  readonly vessel: string;
  readonly position: string;
  readonly count: number;
  readonly times: number;
}

/** What was picked and typed as a change, or what is still to be said. */
function changeFrom(typed: Typed): Change | string {
  const { kind, item, model, part, supplier, serves, vessel, position, count, times } = typed;
  switch (kind) {
    case "replace":
      if (item === undefined) return "Pick the gear whose place is taken.";
      return model === undefined
        ? "Pick the model that takes its place."
        : { kind, item: item.id, model: model.id };
    case "add":
      if (position.trim() === "") return "Say where it is fitted, such as Spare winch.";
      return model === undefined
        ? "Pick the model that is fitted."
        : { kind, vessel, position, model: model.id, count, serves: serves?.id ?? "" };
    case "remove":
      return item === undefined ? "Pick the gear that is taken away." : { kind, item: item.id };
    case "rates":
      return part === undefined ? "Pick the part." : { kind, part: part.id, times };
    case "loseSuppliers":
      return supplier === undefined ? "Pick the supplier." : { kind, supplier: supplier.id };
  }
}

/** A change to imagine, put together from records that are picked by name. */
export function ImagineForm({
  vessel,
  onImagine,
  onLeave,
}: {
  /** The vessel the page is about, whose gear is offered first. */
  readonly vessel: string | undefined;
  readonly onImagine: (change: Change) => void;
  readonly onLeave: () => void;
}) {
  const overview = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const vessels = overview.value?.vessels ?? [];
  const [typed, setTyped] = useState<Typed>({
    kind: "replace",
    vessel: vessel ?? "",
    position: "",
    count: 1,
    times: 2,
  });
  const [lack, setLack] = useState("");
  const set = (change: Partial<Typed>) => {
    setLack("");
    setTyped((before) => ({ ...before, ...change }));
  };
  const { kind } = typed;
  const aboard = typed.vessel === "" ? (vessels[0]?.id ?? "") : typed.vessel;
  const box = (of: "FittedItem" | "Model" | "Part" | "Supplier", label: string) => {
    const name = (
      { FittedItem: "item", Model: "model", Part: "part", Supplier: "supplier" } as const
    )[of];
    return (
      <PickBox
        key={`${kind} ${of}`}
        label={label}
        of={of}
        picked={typed[name]}
        onPick={(picked) => set({ [name]: picked })}
        {...(of === "FittedItem" && aboard !== ""
          ? { isFit: (row) => row.owners.some(({ id }) => id === aboard) }
          : {})}
      />
    );
  };
  const chooseVessel = vessels.length > 1 && (
    <Choice
      label="Aboard"
      value={aboard}
      groups={[{ name: "", options: vessels }]}
      onChange={(id) => set({ vessel: id, item: undefined, serves: undefined })}
    />
  );
  return (
    <Form
      className="imagine-form"
      aria-label="A change to imagine"
      onSubmit={(event) => {
        event.preventDefault();
        const change = changeFrom({ ...typed, vessel: aboard });
        if (typeof change === "string") setLack(change);
        else onImagine(change);
      }}
    >
      <div className="settings">
        <Choice
          label="Imagine"
          value={kind}
          groups={[{ name: "", options: kinds }]}
          onChange={(id) => {
            const next = kinds.find((one) => one.id === id);
            if (next !== undefined) set({ kind: next.id });
          }}
        />
        {(kind === "replace" || kind === "remove" || kind === "add") && chooseVessel}
        {kind === "replace" && box("FittedItem", "In the place of")}
        {kind === "remove" && box("FittedItem", "Gear taken away")}
        {kind === "add" && (
          <TextField
            className="field"
            value={typed.position}
            onChange={(position) => set({ position })}
          >
            <Label>Fitted as</Label>
            <Input className="text-input" placeholder="Spare winch" />
          </TextField>
        )}
        {(kind === "replace" || kind === "add") && box("Model", "Model fitted, new")}
        {kind === "add" && (
          <>
            <PickBox
              key={`add serves ${aboard}`}
              label="Serves, if anything"
              of="RequiredFunction"
              picked={typed.serves}
              onPick={(serves) => set({ serves })}
              isFit={(row) => aboard === "" || row.owners.some(({ id }) => id === aboard)}
            />
            <NumberBox
              label="How many"
              value={typed.count}
              min={1}
              max={50}
              onChange={(count) => set({ count })}
            />
          </>
        )}
        {kind === "rates" && (
          <>
            {box("Part", "Part")}
            <NumberBox
              label="Fails, times as often"
              value={typed.times}
              min={0.01}
              max={1000}
              decimals={2}
              onChange={(times) => set({ times })}
            />
          </>
        )}
        {kind === "loseSuppliers" && box("Supplier", "Supplier gone")}
      </div>
      {lack !== "" && (
        <p className="field-fault" role="alert">
          {lack}
        </p>
      )}
      <div className="deed">
        <Button type="submit" className="act">
          Imagine it
        </Button>
        <Button className="quiet" onPress={onLeave}>
          Leave it
        </Button>
      </div>
    </Form>
  );
}
