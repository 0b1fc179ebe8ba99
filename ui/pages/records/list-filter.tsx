import { useEffect, useState } from "react";
import { Input, Label, SearchField } from "react-aria-components";
import { changeQuery } from "../../routing/route.ts";

/** Narrows a list while one types; the words stand in the address. */
export function ListFilter({ label, text }: { readonly label: string; readonly text: string }) {
  const [typed, setTyped] = useState(text);
  useEffect(() => setTyped(text), [text]);
  useEffect(() => {
    const timer = window.setTimeout(() => {
      if (typed.trim() !== text) changeQuery({ text: typed.trim() }, true);
    }, 150);
    return () => window.clearTimeout(timer);
  }, [typed, text]);
  return (
    <SearchField className="field" value={typed} onChange={setTyped}>
      <Label>{label}</Label>
      <Input className="text-input" />
    </SearchField>
  );
}
