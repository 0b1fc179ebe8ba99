import type { ReactNode } from "react";
import { Button, Dialog, DialogTrigger, Heading, Popover } from "react-aria-components";

/** Why a number is what it is. */
export interface Explanation {
  /** What the number says, in plain words. */
  readonly what: string;
  /** How it is reckoned: the formula in words. */
  readonly how: string;
  /** What it rests on: evidence, and how much of it is assumed. */
  readonly rests?: string;
  /** What would make it another. */
  readonly change?: string;
}

const parts = [
  ["what", "What it says"],
  ["how", "How it is reckoned"],
  ["rests", "What it rests on"],
  ["change", "What would change it"],
] as const;

/** A number that opens its explanation. `name` is what it is the number of: "passage, with the kit". */
export function WhyNumber({
  name,
  children,
  explain,
}: {
  readonly name: string;
  readonly children: ReactNode;
  readonly explain: () => Explanation;
}) {
  return (
    <DialogTrigger>
      <Button className="why-number" aria-label={`Why: ${name}`}>
        {children}
      </Button>
      <Popover className="popover why-popover" placement="bottom end">
        <Dialog className="why-dialog">
          {({ close }) => {
            const reasons = explain();
            return (
              <>
                <Heading slot="title" className="why-title">
                  {name}
                </Heading>
                <dl>
                  {parts.map(([key, title]) => {
                    const text = reasons[key];
                    return text === undefined || text === "" ? null : (
                      <div key={key}>
                        <dt>{title}</dt>
                        <dd>{text}</dd>
                      </div>
                    );
                  })}
                </dl>
                <Button className="quiet" onPress={close}>
                  Close
                </Button>
              </>
            );
          }}
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
