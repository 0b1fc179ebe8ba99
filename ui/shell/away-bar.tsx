import { ask } from "../data/ask.ts";
import { useConnection } from "../data/connection.ts";
import { askEverythingAgain } from "../data/use-answer.ts";

const clock = (at: number) =>
  new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short" }).format(at);

/** Says that the program is away, from when the data is, and that changes are refused. */
export function AwayBar() {
  const { isAway, keptAt } = useConnection();
  return (
    <div className="away" role="status">
      {isAway && (
        <p>
          <strong>The program does not answer.</strong>{" "}
          {keptAt === undefined ? "" : `You see what it last said, ${clock(keptAt)}. `}
          Changes are refused until it is back.{" "}
          <button
            type="button"
            className="quiet"
            onClick={() => {
              void ask("/api/overview")
                .then(askEverythingAgain)
                .catch(() => undefined);
            }}
          >
            Try again
          </button>
        </p>
      )}
    </div>
  );
}
