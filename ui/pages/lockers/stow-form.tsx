import { useState } from "react";
import { Button, Form, Input, Label, TextField } from "react-aria-components";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import type { StowAnswer } from "../../../api/contract/stock.contract.ts";
import type { StowagePlace } from "../../../api/contract/stowage.contract.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { NumberBox } from "../../components/number-box.tsx";
import { send } from "../../data/ask.ts";
import { tellChange } from "../../data/last-change.ts";
import { problemOf } from "../../data/use-answer.ts";

/** Putting pieces into the place that is open. */
export function StowForm({ place }: { readonly place: StowagePlace }) {
  const [part, setPart] = useState("");
  const [pieces, setPieces] = useState(1);
  const [expires, setExpires] = useState("");
  const [problem, setProblem] = useState<ProblemDocument>();
  const stow = async () => {
    setProblem(undefined);
    try {
      tellChange(
        await send<StowAnswer>("/api/stow", {
          part: part.trim(),
          quantity: pieces,
          place: place.id,
          ...(expires.trim() === "" ? {} : { expires: expires.trim() }),
        }),
      );
      setPart("");
      setExpires("");
    } catch (error) {
      setProblem(problemOf(error));
    }
  };
  return (
    <details className="stow off-paper">
      <summary>Put something into {place.name}</summary>
      <Form
        className="line-form"
        onSubmit={(event) => {
          event.preventDefault();
          void stow();
        }}
      >
        <TextField className="field" value={part} onChange={setPart} isRequired>
          <Label>Part number</Label>
          <Input className="text-input" />
        </TextField>
        <NumberBox label="Pieces" value={pieces} min={1} max={100_000} onChange={setPieces} />
        <TextField className="field" value={expires} onChange={setExpires}>
          <Label>Use by (if it says)</Label>
          <Input className="text-input" placeholder="31 Mar 2028" />
        </TextField>
        <Button type="submit" className="act">
          Stow
        </Button>
      </Form>
      {problem !== undefined && <ProblemNote problem={problem} />}
    </details>
  );
}
