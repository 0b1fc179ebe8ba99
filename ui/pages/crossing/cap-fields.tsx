import { useState } from "react";
import {
  massOf,
  massUnit,
  massValue,
  roomOf,
  roomUnit,
  roomValue,
} from "../../components/units.ts";
import { usePreferences } from "../../data/preferences.ts";
import { changeQuery } from "../../routing/route.ts";
import { limitCount, readLimits } from "./cap-question.ts";
import { LimitBox } from "./limit-box.tsx";
import { LockerLimits } from "./locker-limits.tsx";

const inAddress = (value: number | undefined): string => (value === undefined ? "" : String(value));

/** What may be bought at most: money, weight, room, in all and locker by locker. */
export function CapFields({
  query,
  currency,
  vessel,
}: {
  readonly query: ReadonlyMap<string, string>;
  /** The currency the kit is reckoned in. */
  readonly currency: string;
  readonly vessel: { readonly id: string; readonly name: string };
}) {
  const limits = readLimits(query);
  const count = limitCount(limits);
  const [isOpen, setOpen] = useState(count > 0);
  const { units } = usePreferences();
  const money = limits.money?.currency ?? currency;
  return (
    <details
      className="limits"
      open={isOpen}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>Caps on what is bought{count === 0 ? ": none" : `: ${count} set`}</summary>
      {isOpen && (
        <>
          <div className="settings">
            <LimitBox
              label={`Most money, ${money}`}
              value={limits.money?.amount}
              onChange={(amount) =>
                changeQuery({ mostmoney: amount === undefined ? "" : `${amount}${money}` })
              }
            />
            <LimitBox
              label={`Most weight, ${massUnit(units)}`}
              value={massValue(limits.kg, units)}
              onChange={(amount) => changeQuery({ mostkg: inAddress(massOf(amount, units)) })}
            />
            <LimitBox
              label={`Most room, ${roomUnit(units)}`}
              value={roomValue(limits.litres, units)}
              onChange={(amount) => changeQuery({ mostlitres: inAddress(roomOf(amount, units)) })}
            />
          </div>
          <LockerLimits lockers={limits.lockers} vessel={vessel} units={units} />
        </>
      )}
    </details>
  );
}
