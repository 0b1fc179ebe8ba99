import type { AboutAnswer } from "../../../api/contract/about.contract.ts";
import { ask } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";

/** Where the data lives, and which program this is. */
export function About() {
  const { value } = useAnswer<AboutAnswer>("about", (signal) =>
    ask<AboutAnswer>("/api/about", { signal }),
  );
  return (
    <section aria-labelledby="about-title">
      <h2 id="about-title">Where the data lives</h2>
      {value === undefined ? (
        <p className="loading">Asking…</p>
      ) : (
        <p>
          {value.database}. This is Sparewright {value.version}; to work on another file, start it
          with <code>--db FILE</code>.
        </p>
      )}
    </section>
  );
}
