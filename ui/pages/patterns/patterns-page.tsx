import { Printer } from "lucide-react";
import { useState } from "react";
import { Button, Switch } from "react-aria-components";
import { Cautions } from "../../components/cautions.tsx";
import { Choice } from "../../components/choice.tsx";
import { Answered, Notices, ProblemNote } from "../../components/notice.tsx";
import { NumberBox } from "../../components/number-box.tsx";
import { SchemeSwitch } from "../../components/scheme.tsx";
import { EvidenceSign, TierSign } from "../../components/signs.tsx";
import { TextBox } from "../../components/text-box.tsx";
import { EditSample, PictureSample, SideSample, WhySample } from "./more-samples.tsx";
import { TableSamples } from "./table-samples.tsx";
import { ColourSwatches, SpaceScale, TypeScale } from "./token-samples.tsx";

const nothing = () => undefined;

function FieldSamples() {
  const [number, setNumber] = useState(16);
  const [text, setText] = useState("");
  const [choice, setChoice] = useState("cost");
  const [isOn, setOn] = useState(true);
  return (
    <div className="settings">
      <TextBox
        label="A line of text"
        placeholder="what may stand here"
        value={text}
        onChange={setText}
      />
      <NumberBox label="A number, days" value={number} min={1} max={99} onChange={setNumber} />
      <Choice
        label="One of several"
        value={choice}
        groups={[
          { name: "", options: [{ id: "cost", name: "money" }] },
          {
            name: "With meanings",
            options: [
              { id: "mass", name: "weight", meaning: "Kilograms aboard" },
              { id: "room", name: "room", meaning: "Litres in lockers" },
            ],
          },
        ]}
        onChange={setChoice}
      />
      <Choice label="Nothing chosen yet" value={null} groups={[]} onChange={nothing} />
      <Switch className="switch" isSelected={isOn} onChange={setOn}>
        <span className="switch-track" aria-hidden="true" />
        Yes or no
      </Switch>
    </div>
  );
}

/** The pattern book: every token and component of the screen in every state it can be in. */
export function PatternsPage() {
  return (
    <>
      <h1>What is this screen built of?</h1>
      <p className="sentence">
        One family of type, a grid of four, three lights, and a handful of pieces used the same way
        on every page.
      </p>
      <section aria-labelledby="p-light">
        <h2 id="p-light">Light</h2>
        <SchemeSwitch />
        <p className="said">
          Every colour is named for its use. Night has no green and no blue in any of them. State is
          never colour alone: shape and words say it too.
        </p>
        <ColourSwatches />
      </section>
      <section aria-labelledby="p-type">
        <h2 id="p-type">Type</h2>
        <TypeScale />
      </section>
      <section aria-labelledby="p-space">
        <h2 id="p-space">Space</h2>
        <SpaceScale />
      </section>
      <section aria-labelledby="p-signs">
        <h2 id="p-signs">Signs</h2>
        <p className="sign-row">
          <TierSign tier="safety" /> <TierSign tier="passage" /> <TierSign tier="comfort" />
        </p>
        <p className="sign-row">
          <EvidenceSign evidence="measured" /> <EvidenceSign evidence="own history" />{" "}
          <EvidenceSign evidence="assumed" /> <EvidenceSign evidence="scheduled" />
        </p>
        <p className="sign-row">
          <span className="met">✓ reached</span> <span className="unmet">✕ out of reach</span>{" "}
          <span className="doubt">about 12.50</span>
        </p>
      </section>
      <section aria-labelledby="p-deeds">
        <h2 id="p-deeds">Deeds</h2>
        <div className="deed">
          <Button className="act" onPress={nothing}>
            The one thing to do
          </Button>
          <Button className="act" onPress={nothing}>
            <Printer size={18} aria-hidden="true" /> With a sign
          </Button>
          <Button className="act" isDisabled>
            Not yet
          </Button>
          <Button className="quiet" onPress={nothing}>
            Something else
          </Button>
          <Button className="quiet" isDisabled>
            Not yet
          </Button>
          <a href="#/patterns">A way to another page</a>
        </div>
      </section>
      <section aria-labelledby="p-fields">
        <h2 id="p-fields">Fields</h2>
        <FieldSamples />
      </section>
      <section aria-labelledby="p-values">
        <h2 id="p-values">Numbers and values</h2>
        <WhySample />
        <EditSample />
      </section>
      <section aria-labelledby="p-pictures">
        <h2 id="p-pictures">Pictures</h2>
        <PictureSample />
      </section>
      <section aria-labelledby="p-answers">
        <h2 id="p-answers">Answers</h2>
        <h3>Imagined</h3>
        <SideSample />
        <h3>Standing</h3>
        <Answered
          sentence="41 pieces, 1 860 EUR and 23 kg carry the crossing at 0.97."
          waiting={false}
        />
        <h3>Being worked out again</h3>
        <Answered sentence="41 pieces, 1 860 EUR and 23 kg carry the crossing at 0.97." waiting />
        <h3>Not there yet</h3>
        <p className="loading">Working out the kit…</p>
        <h3>Nothing to show</h3>
        <p>
          No gear with a list of its parts is here yet. <a href="#/import">Import a parts list</a>{" "}
          to compare.
        </p>
        <h3>Refused</h3>
        <ProblemNote
          problem={{
            type: "about:blank",
            title: "Target out of range",
            status: 422,
            code: "target-invalid",
            detail: "A target lies between 0 and 1; received 1.5. Write 0.95 for 95 in 100.",
            errors: [{ pointer: "/targets/passage", detail: "must be less than 1" }],
          }}
          again={nothing}
        />
        <Notices
          notices={[
            { code: "a", text: "12 prices are assumed." },
            { code: "b", text: "Running hours of 3 items are not known; 24 a day is taken." },
          ]}
        />
        <Cautions
          title="Read with every list"
          cautions={[
            "Not a statement of compliance.",
            "The maker's manual and parts list come first.",
          ]}
        />
      </section>
      <section aria-labelledby="p-tables">
        <h2 id="p-tables">Tables</h2>
        <TableSamples />
      </section>
    </>
  );
}
