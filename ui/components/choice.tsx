import { ChevronDown } from "lucide-react";
import {
  Button,
  Header,
  Label,
  ListBox,
  ListBoxItem,
  ListBoxSection,
  Popover,
  Select,
  SelectValue,
} from "react-aria-components";

export interface Option {
  readonly id: string;
  readonly name: string;
  readonly meaning?: string;
}
export interface OptionGroup {
  readonly name: string;
  readonly options: readonly Option[];
}

const item = (option: Option) => (
  <ListBoxItem key={option.id} id={option.id} textValue={option.name} className="option">
    <span className="option-name">{option.name}</span>
    {option.meaning !== undefined && <span className="option-meaning">{option.meaning}</span>}
  </ListBoxItem>
);

/** One of several, from a list that opens; options may stand in named groups and carry their meaning. */
export function Choice({
  label,
  value,
  groups,
  onChange,
  labelHidden = false,
  placeholder = "Choose",
}: {
  readonly label: string;
  readonly value: string | null;
  readonly groups: readonly OptionGroup[];
  readonly onChange: (id: string) => void;
  readonly labelHidden?: boolean;
  readonly placeholder?: string;
}) {
  return (
    <Select
      className="field"
      value={value}
      placeholder={placeholder}
      onChange={(key) => {
        if (key !== null) onChange(String(key));
      }}
      {...(labelHidden ? { "aria-label": label } : {})}
    >
      {!labelHidden && <Label>{label}</Label>}
      <Button className="choice-button">
        <SelectValue className="choice-value">
          {({ selectedText, defaultChildren }) => selectedText || defaultChildren}
        </SelectValue>
        <ChevronDown size={18} aria-hidden="true" />
      </Button>
      <Popover className="popover">
        <ListBox className="options">
          {groups.map((group) =>
            group.name === "" ? (
              group.options.map(item)
            ) : (
              <ListBoxSection key={group.name} id={`group ${group.name}`}>
                <Header className="option-group">{group.name}</Header>
                {group.options.map(item)}
              </ListBoxSection>
            ),
          )}
        </ListBox>
      </Popover>
    </Select>
  );
}
