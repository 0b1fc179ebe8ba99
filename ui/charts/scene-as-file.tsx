import { flushSync } from "react-dom";
import { createRoot } from "react-dom/client";
import { Drawing } from "./drawing.tsx";
import type { Scene } from "./scene.ts";

/** What a drawing's look is made of; each is written onto the element, so that the file needs no stylesheet. */
const looks = [
  "fill",
  "fill-opacity",
  "stroke",
  "stroke-width",
  "stroke-dasharray",
  "opacity",
  "paint-order",
  "font-size",
  "font-weight",
  "font-style",
] as const;

const namespace = "http://www.w3.org/2000/svg";
const captionHeight = 28;

/** A scene as a file's text: in the day's colours on white whatever light is on, its finding written above it. */
export function sceneAsSvg(scene: Scene): string {
  const host = document.createElement("div");
  host.dataset["scheme"] = "day";
  host.className = "off-page";
  document.body.append(host);
  const root = createRoot(host);
  try {
    flushSync(() => root.render(<Drawing scene={scene} />));
    const drawn = host.querySelector("svg");
    if (drawn === null) return "";
    for (const element of drawn.querySelectorAll("*")) {
      const style = getComputedStyle(element);
      for (const look of looks) {
        const value = style.getPropertyValue(look);
        if (value !== "") element.setAttribute(look, value);
      }
      element.removeAttribute("class");
    }
    const title = document.createElementNS(namespace, "title");
    title.textContent = scene.words;
    const ground = document.createElementNS(namespace, "rect");
    ground.setAttribute("width", "100%");
    ground.setAttribute("height", "100%");
    ground.setAttribute("fill", "#ffffff");
    ground.setAttribute("y", String(-captionHeight));
    drawn.prepend(title, ground);
    const height = scene.height + captionHeight;
    drawn.setAttribute("xmlns", namespace);
    drawn.setAttribute("font-family", "Source Sans 3, system-ui, sans-serif");
    drawn.setAttribute("height", String(height));
    drawn.setAttribute("viewBox", `0 ${-captionHeight} ${scene.width} ${height}`);
    drawn.removeAttribute("aria-label");
    const words = document.createElementNS(namespace, "text");
    words.setAttribute("x", "4");
    words.setAttribute("y", String(-captionHeight + 18));
    words.setAttribute("font-size", "13");
    words.setAttribute("fill", "#12202c");
    words.textContent = scene.words;
    drawn.append(words);
    return new XMLSerializer().serializeToString(drawn);
  } finally {
    root.unmount();
    host.remove();
  }
}

/** Longest side of a picture's points, so that no browser refuses it. */
const longestSide = 8_000;

/** An SVG text as a PNG at twice its size (less where that would be too large). */
export async function svgAsPng(svg: string, scene: Scene): Promise<Blob> {
  const picture = new Image();
  picture.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await picture.decode();
  const height = scene.height + captionHeight;
  const scale = Math.min(2, longestSide / Math.max(scene.width, height, 1));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(scene.width * scale));
  canvas.height = Math.max(1, Math.round(height * scale));
  canvas.getContext("2d")?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => {
      if (blob === null) reject(new Error("The picture is too large for a PNG; save it as SVG."));
      else resolve(blob);
    }, "image/png"),
  );
}
