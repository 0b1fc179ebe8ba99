import { Shuffle } from "lucide-react";
import { useState } from "react";
import { Button } from "react-aria-components";
import { changeQuery } from "../../routing/route.ts";
import { ImagineForm } from "./imagine-form.tsx";
import { readImagined, writeImagined } from "./imagined-changes.ts";

/** Opens the form for a change to imagine; the change goes into the address. */
export function ImagineDeed({
  query,
  vessel,
}: {
  readonly query: ReadonlyMap<string, string>;
  /** The vessel the page is about. */
  readonly vessel?: string | undefined;
}) {
  const [isOpen, setOpen] = useState(false);
  const changes = readImagined(query);
  return (
    <div className="imagine off-paper">
      <Button className="quiet" aria-expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        <Shuffle size={18} aria-hidden="true" />{" "}
        {changes.length === 0 ? "Imagine a change" : "Imagine another change"}
      </Button>
      {isOpen && (
        <ImagineForm
          vessel={vessel}
          onLeave={() => setOpen(false)}
          onImagine={(change) => {
            setOpen(false);
            changeQuery({ imagine: writeImagined([...changes, change]) });
          }}
        />
      )}
    </div>
  );
}
