import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const snapshots = join(import.meta.dirname, "../snapshots");

/** Set to 1 to take the pictures as they are now for what they should be, once they have been looked at. */
const updating = process.env["UPDATE_PICTURES"] === "1";

const geometry = / (?:x|y|x1|x2|y1|y2|cx|cy|r|width|height|d|points|transform|viewBox)="[^"]*"/g;

const toTenths = (attribute: string): string =>
  attribute.replaceAll(/-?\d+\.\d+/g, (figure) => String(Math.round(Number(figure) * 10) / 10 + 0));

/**
 * An SVG in a form that can be compared and read: one element a line, its geometry to a tenth (a browser draws no
 * finer), words and figures that are read to the letter, no space at the end of a line.
 */
export const normalisedSvg = (svg: string): string =>
  `${svg
    .replaceAll(/>\s*</g, ">\n<")
    .replaceAll(geometry, toTenths)
    .split("\n")
    .map((line) => line.trimEnd())
    .join("\n")}\n`;

/** The first lines in which two texts differ, each with its number. */
function firstDifference(wanted: string, drawn: string): string {
  const [a, b] = [wanted.split("\n"), drawn.split("\n")];
  const at = a.findIndex((line, index) => line !== b[index]);
  const line = at < 0 ? a.length - 1 : at;
  return `line ${line + 1}: "${a[line] ?? ""}" became "${b[line] ?? ""}"`;
}

/**
 * What is wrong with a picture against `NAME.svg`; undefined when nothing is. A picture that differs is written beside it
 * as `NAME-changed.svg`, to be looked at. A file is only made or changed where `update` says so.
 */
export function pictureFault(
  name: string,
  svg: string,
  { folder = snapshots, update = updating } = {},
): string | undefined {
  const path = join(folder, `${name}.svg`);
  const changed = join(folder, `${name}-changed.svg`);
  const drawn = normalisedSvg(svg);
  if (update) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(path, drawn);
  }
  const wanted = existsSync(path) ? readFileSync(path, "utf8") : undefined;
  if (wanted === drawn) {
    rmSync(changed, { force: true });
    return undefined;
  }
  mkdirSync(folder, { recursive: true });
  writeFileSync(changed, drawn);
  const what =
    wanted === undefined ? "there is no such picture on file" : firstDifference(wanted, drawn);
  return `${name}.svg: ${what}. Look at ${name}-changed.svg; if it is right, run the test with UPDATE_PICTURES=1.`;
}
