import { type ReactNode, useState } from "react";
import { Button, DropZone, FileTrigger, Label, TextArea, TextField } from "react-aria-components";
import { textOfFile } from "../../data/text-of-file.ts";

const longest = 400_000;

/** A list as CSV: pasted, dropped or picked; what was understood of it stands under it. */
export function CsvBox({
  label,
  example,
  text,
  onChange,
  children,
}: {
  readonly label: string;
  /** A list of the kind, as it may look. */
  readonly example: string;
  readonly text: string;
  readonly onChange: (text: string) => void;
  readonly children?: ReactNode;
}) {
  const [fault, setFault] = useState("");
  const take = (next: string) => {
    const isLong = next.length > longest;
    setFault(
      isLong ? "This is longer than 400 000 characters: leave out what is not of this make." : "",
    );
    if (!isLong) onChange(next);
  };
  const takeFile = async (file: File) => {
    try {
      if (/\.(xlsx?|ods|numbers|pdf)$/i.test(file.name)) {
        setFault(
          `${file.name} is no CSV. Save the list as CSV, or copy its cells and paste them here.`,
        );
        return;
      }
      take(await textOfFile(file));
    } catch {
      setFault(`${file.name} cannot be read. Choose it again.`);
    }
  };
  return (
    <DropZone
      className="csv-box"
      getDropOperation={() => "copy"}
      onDrop={(event) => {
        for (const dropped of event.items)
          if (dropped.kind === "file") {
            void dropped.getFile().then(takeFile);
            return;
          }
      }}
    >
      <TextField className="field" value={text} onChange={take}>
        <Label>{label}</Label>
        <TextArea
          className="text-input csv-text"
          rows={Math.min(10, Math.max(4, text.split("\n").length + 1))}
          placeholder={example}
          spellCheck="false"
          autoCorrect="off"
          autoCapitalize="off"
        />
      </TextField>
      <div className="csv-deeds">
        <FileTrigger
          acceptedFileTypes={[".csv", ".tsv", ".txt", "text/csv", "text/plain"]}
          onSelect={(list) => {
            const chosen = list?.item(0);
            if (chosen) void takeFile(chosen);
          }}
        >
          <Button className="quiet">
            Choose a file<span className="hidden"> for: {label}</span>
          </Button>
        </FileTrigger>
        {text !== "" && (
          <Button className="plain" onPress={() => take("")}>
            <span className="hidden">{label}: </span>Empty it
          </Button>
        )}
        <span className="said">or drop one here</span>
      </div>
      {fault !== "" && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
      {children}
    </DropZone>
  );
}
