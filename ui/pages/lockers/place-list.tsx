import type { StowagePlace } from "../../../api/contract/stowage.contract.ts";
import { wholeText } from "../../components/figures.ts";
import { writeRoute } from "../../routing/route.ts";

/** The walk through the ships: vessels and the lockers of the open one, with how many lots lie in each. */
export function PlaceList({
  places,
  open,
}: {
  readonly places: readonly StowagePlace[];
  readonly open: StowagePlace;
}) {
  return (
    <nav className="places" aria-label="Places">
      <ol>
        {places.map((place) => (
          <li key={place.id} data-depth={Math.min(4, place.depth)}>
            <a
              href={writeRoute("lockers", [["locker", place.id]])}
              {...(place.id === open.id ? { "aria-current": "true" as const } : {})}
            >
              <span className="place-name">{place.name}</span>
              {place.lots !== null && (
                <span className="place-count">
                  {wholeText(place.lots)}
                  <span className="hidden"> lots</span>
                  {place.attention !== null && place.attention > 0 && (
                    <span className="unmet">
                      {" "}
                      ▵{wholeText(place.attention)}
                      <span className="hidden"> to look at</span>
                    </span>
                  )}
                </span>
              )}
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}
