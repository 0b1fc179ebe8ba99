import { renderToStaticMarkup } from "react-dom/server";
import { Drawing } from "../../ui/charts/drawing.tsx";
import type { Scene } from "../../ui/charts/scene.ts";

/** A scene's SVG as text, one element a line, so that a difference can be read. */
export const svgText = (scene: Scene): string =>
  renderToStaticMarkup(<Drawing scene={scene} />).replaceAll("><", ">\n<");

/** The lines of an SVG text whose element carries a class. */
export const linesOfClass = (svg: string, name: string): readonly string[] =>
  svg.split("\n").filter((line) => new RegExp(`class="[^"]*\\b${name}(?![\\w-])`).test(line));

/** A numeric attribute of one element's text. */
export function attribute(line: string, name: string): number {
  const found = new RegExp(` ${name}="([^"]+)"`).exec(line)?.[1];
  return Number(found);
}
