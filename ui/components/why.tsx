import { type ReactNode, useRef, useState } from "react";
import { Button, Dialog, Heading, Popover } from "react-aria-components";

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

/**
 * A number that opens its explanation. `name` is what it is the number of: "passage, with the kit". A table may hold
 * thousands: until it is pressed it is a button and nothing more.
 */
export function WhyNumber({
  name,
  children,
  explain,
}: {
  readonly name: string;
  readonly children: ReactNode;
  readonly explain: () => Explanation;
}) {
  const button = useRef<HTMLButtonElement>(null);
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <button
        ref={button}
        type="button"
        className="why-number"
        aria-label={`Why: ${name}`}
        aria-haspopup="dialog"
        aria-expanded={isOpen}
        onClick={() => setOpen(true)}
      >
        {children}
      </button>
      {isOpen && (
        <Popover
          className="popover why-popover"
          placement="bottom end"
          triggerRef={button}
          isOpen
          onOpenChange={setOpen}
        >
          <Dialog className="why-dialog">
            <Heading slot="title" className="why-title">
              {name}
            </Heading>
            <Reasons reasons={explain()} />
            <Button className="quiet" onPress={() => setOpen(false)}>
              Close
            </Button>
          </Dialog>
        </Popover>
      )}
    </>
  );
}

function Reasons({ reasons }: { readonly reasons: Explanation }) {
  return (
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
  );
}
