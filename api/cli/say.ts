import { plainText, wrapWords } from "./table.ts";

/** Columns of the reader's terminal; 100 where there is none, never below 40. */
export const terminalWidth = (): number =>
  Math.max(40, process.stdout.columns ?? (Number(process.env["COLUMNS"]) || 100));

/** Writes one JSON document on one line, exactly the document HTTP answers with. */
export const sayDocument = (document: unknown): void => {
  process.stdout.write(`${JSON.stringify(document)}\n`);
};

export const say = (text = ""): void => {
  process.stdout.write(`${text}\n`);
};

/** A paragraph within the terminal's width; its first line set in by `first`, later lines by `indent`. */
export function sayWords(text: string, indent = "", first = ""): void {
  const room = terminalWidth() - Math.max(indent.length, first.length);
  const lines = wrapWords(plainText(text), room);
  say(lines.map((line, at) => `${at === 0 ? first : indent}${line}`).join("\n"));
}

export function sayHeading(text: string): void {
  say();
  say(text);
  say("═".repeat([...text].length));
}

/** The cautions that stand at the end of every kit and list. */
export function sayCautions(cautions: readonly string[]): void {
  sayHeading("Cautions");
  for (const caution of cautions) sayWords(`• ${caution}`, "  ");
}

export function sayNotices(notices: readonly { readonly text: string }[]): void {
  if (notices.length === 0) return;
  sayHeading("To know");
  for (const { text } of notices) sayWords(`• ${text}`, "  ");
}

/** A sentence on the error stream, so that it never mixes with a document. */
export const sayAside = (text: string): void => {
  process.stderr.write(`${text}\n`);
};
