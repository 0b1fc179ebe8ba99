import { Search } from "lucide-react";
import { useState } from "react";
import { ComboBox, Input, Label, ListBox, ListBoxItem, Popover } from "react-aria-components";
import type { FindAnswer } from "../../api/contract/find.contract.ts";
import { kindWord } from "../components/kind-words.ts";
import { useRested } from "../components/use-rested.ts";
import { ask } from "../data/ask.ts";
import { useAnswer } from "../data/use-answer.ts";
import { goTo, writeRoute } from "../routing/route.ts";
import { hitAddress } from "./hit-address.ts";

const shownHits = 8;
const allOf = "everything found";

/** Search from every page: a part number, a name, a maker or a locker, answered while one types. */
export function HeaderSearch() {
  const [typed, setTyped] = useState("");
  const text = useRested(typed);
  const { value, problem } = useAnswer<FindAnswer | undefined>(
    `find ${text}`,
    (signal) =>
      text === ""
        ? Promise.resolve(undefined)
        : ask<FindAnswer>(`/api/find?text=${encodeURIComponent(text)}&limit=${shownHits}`, {
            signal,
          }),
    false,
  );
  const hits = text === "" ? [] : (value?.hits ?? []).slice(0, shownHits);
  const go = (id: string) => {
    const hit = hits.find((one) => one.id === id);
    const address = hit === undefined ? undefined : hitAddress(hit.label, hit.id);
    setTyped("");
    goTo(address ?? writeRoute("find", [["text", typed.trim()]]));
  };
  return (
    <ComboBox
      className="header-search"
      inputValue={typed}
      onInputChange={setTyped}
      value={null}
      onChange={(key) => {
        if (key !== null) go(String(key));
      }}
      defaultFilter={() => true}
      allowsCustomValue
      allowsEmptyCollection
      menuTrigger="input"
    >
      <Label className="hidden">Find a part number, name, maker or locker</Label>
      <Search size={18} aria-hidden="true" className="header-search-sign" />
      <Input
        className="text-input"
        placeholder="Find a part, maker, locker"
        onKeyDown={(event) => {
          if (
            event.key === "Enter" &&
            !event.currentTarget.hasAttribute("aria-activedescendant") &&
            typed.trim() !== ""
          )
            go(allOf);
        }}
      />
      <Popover className="popover search-popover" offset={2}>
        <ListBox
          className="options"
          renderEmptyState={() => (
            <p className="option-empty">
              {problem === undefined
                ? text === ""
                  ? "A part number, a word, a maker or a locker."
                  : (value?.sentence ?? "Looking…")
                : problem.detail}
            </p>
          )}
        >
          {hits.map((hit) => (
            <ListBoxItem
              key={hit.id}
              id={hit.id}
              textValue={`${hit.name} ${hit.detail}`}
              className="option"
            >
              <span className="option-line">
                <span className="option-name">{hit.name}</span>
                <span className="option-kind">{kindWord(hit.label)}</span>
              </span>
              <span className="option-meaning">
                {[hit.detail, hit.aboard?.[0]?.words].filter((word) => word).join(" · ")}
              </span>
            </ListBoxItem>
          ))}
          {hits.length > 0 && (
            <ListBoxItem id={allOf} textValue={typed} className="option option-all">
              Everything found for “{text}”
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </ComboBox>
  );
}
