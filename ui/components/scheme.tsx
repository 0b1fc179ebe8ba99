import { useEffect, useState } from "react";
import { Label, Radio, RadioGroup } from "react-aria-components";

const schemes = ["day", "dusk", "night"] as const;
type Scheme = (typeof schemes)[number];
const shelf = "sparewright.scheme";

const isScheme = (value: string | null): value is Scheme =>
  value !== null && (schemes as readonly string[]).includes(value);

/** The scheme kept from last time; day where nothing is kept or storage is refused. */
function keptScheme(): Scheme {
  try {
    const kept = window.localStorage.getItem(shelf);
    return isScheme(kept) ? kept : "day";
  } catch {
    return "day";
  }
}

const wear = (scheme: Scheme) => {
  document.documentElement.dataset["scheme"] = scheme;
};

/** Puts on the kept scheme before the first picture, so that nothing flashes white at night. */
export const wearKeptScheme = (): void => wear(keptScheme());

/** Day, dusk or night. */
export function SchemeSwitch() {
  const [scheme, setScheme] = useState<Scheme>(keptScheme);
  useEffect(() => {
    wear(scheme);
    try {
      window.localStorage.setItem(shelf, scheme);
    } catch {
      // Storage may be refused; the scheme then lasts as long as the page.
    }
  }, [scheme]);
  return (
    <RadioGroup
      className="scheme"
      orientation="horizontal"
      value={scheme}
      onChange={(value) => {
        if (isScheme(value)) setScheme(value);
      }}
    >
      <Label className="hidden">Light</Label>
      {schemes.map((name) => (
        <Radio key={name} value={name} className="scheme-option">
          {name}
        </Radio>
      ))}
    </RadioGroup>
  );
}
