import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import { Choice } from "../../components/choice.tsx";
import {
  massOf,
  massUnit,
  massValue,
  roomOf,
  roomText,
  roomUnit,
  roomValue,
  type Units,
} from "../../components/units.ts";
import { useRecords } from "../../data/use-records.ts";
import { changeQuery } from "../../routing/route.ts";
import { placesOf } from "../lockers/stowage.ts";
import { numberOf } from "../records/record-columns.ts";
import { type LockerLimit, mostLockers, writeLockers } from "./cap-question.ts";
import { LimitBox } from "./limit-box.tsx";

const write = (lockers: readonly LockerLimit[]) => changeQuery({ stow: writeLockers(lockers) });

/** The lockers that must hold all that is bought, each with its room and load. */
export function LockerLimits({
  lockers,
  vessel,
  units,
}: {
  readonly lockers: readonly LockerLimit[];
  readonly vessel: { readonly id: string; readonly name: string };
  readonly units: Units;
}) {
  const records = useRecords({ label: "Locker" }, true);
  /** Chosen, but without the room or load the program needs of a locker whose capacity is not stated. */
  const [unsaid, setUnsaid] = useState<readonly string[]>([]);
  const places = useMemo(() => {
    const all = placesOf([vessel], records.rows);
    const own = all.find(({ isVessel }) => isVessel)?.within ?? new Set();
    return all.filter(({ id, isVessel }) => !isVessel && own.has(id));
  }, [vessel, records.rows]);
  const capacityOf = useMemo(() => {
    const known = new Map(records.rows.map((row) => [row.id, numberOf(row, "capacityLitres")]));
    return (id: string) => known.get(id);
  }, [records.rows]);
  const nameOf = (id: string) =>
    places.find((place) => place.id === id)?.path.replace(`${vessel.name} › `, "") ?? id;
  const shown: readonly LockerLimit[] = [
    ...lockers,
    ...unsaid
      .filter((id) => !lockers.some(({ locker }) => locker === id))
      .map((locker) => ({ locker })),
  ];
  const become = ({ locker, litres, kg }: LockerLimit) => {
    const says = litres !== undefined || kg !== undefined || capacityOf(locker) !== undefined;
    setUnsaid((before) => [...before.filter((id) => id !== locker), ...(says ? [] : [locker])]);
    const next = {
      locker,
      ...(litres === undefined ? {} : { litres }),
      ...(kg === undefined ? {} : { kg }),
    };
    const isThere = lockers.some((one) => one.locker === locker);
    write(
      !says
        ? lockers.filter((one) => one.locker !== locker)
        : isThere
          ? lockers.map((one) => (one.locker === locker ? next : one))
          : [...lockers, next],
    );
  };
  const takeOut = (locker: string) => {
    setUnsaid((before) => before.filter((id) => id !== locker));
    write(lockers.filter((one) => one.locker !== locker));
  };
  const taken = places.filter(({ id }) => shown.some(({ locker }) => locker === id));
  // A locker and one inside it have the same room, so only one of them can be named.
  const free = places.filter(
    (place) => !taken.some((other) => other.within.has(place.id) || place.within.has(other.id)),
  );
  if (places.length === 0)
    return records.isWaiting ? null : (
      <p className="said">No locker is known aboard {vessel.name}, so none can be stowed in.</p>
    );
  return (
    <>
      {shown.length > 0 && (
        <ul className="locker-limits">
          {shown.map((limit) => {
            const { locker } = limit;
            const name = nameOf(locker);
            const capacity = capacityOf(locker);
            return (
              <li key={locker}>
                <span className="locker-name">
                  {name}
                  <span className="part-description">
                    {capacity === undefined
                      ? limit.litres === undefined && limit.kg === undefined
                        ? " holds an amount nobody states: give its room or its load"
                        : ""
                      : ` holds ${roomText(capacity, units)} ${roomUnit(units)}`}
                  </span>
                </span>
                <LimitBox
                  label={`Room, ${roomUnit(units)}`}
                  placeholder={capacity === undefined ? "not stated" : "what is free"}
                  value={roomValue(limit.litres, units)}
                  onChange={(amount) => {
                    const { litres: _, ...rest } = limit;
                    const litres = roomOf(amount, units);
                    become({ ...rest, ...(litres === undefined ? {} : { litres }) });
                  }}
                />
                <LimitBox
                  label={`Load, ${massUnit(units)}`}
                  value={massValue(limit.kg, units)}
                  onChange={(amount) => {
                    const { kg: _, ...rest } = limit;
                    const kg = massOf(amount, units);
                    become({ ...rest, ...(kg === undefined ? {} : { kg }) });
                  }}
                />
                <Button
                  className="quiet"
                  aria-label={`Take ${name} out`}
                  onPress={() => takeOut(locker)}
                >
                  Take out
                </Button>
              </li>
            );
          })}
        </ul>
      )}
      {free.length > 0 && shown.length < mostLockers && (
        <div className="settings">
          <Choice
            label={shown.length === 0 ? "All that is bought must fit in" : "or in"}
            value={null}
            placeholder="Choose a locker"
            groups={[
              {
                name: "",
                options: free.map(({ id, path }) => ({
                  id,
                  name: path.replace(`${vessel.name} › `, ""),
                })),
              },
            ]}
            onChange={(locker) => become({ locker })}
          />
        </div>
      )}
    </>
  );
}
