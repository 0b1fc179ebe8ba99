import type { ReactNode } from "react";
import type { Mark, Scene } from "./scene.ts";

const round = (n: number) => Math.round(n * 100) / 100;

/** One mark as its SVG element. */
function markElement(mark: Mark, key: number): ReactNode {
  switch (mark.kind) {
    case "rect":
      return (
        <rect
          key={key}
          x={round(mark.x)}
          y={round(mark.y)}
          width={round(mark.width)}
          height={round(mark.height)}
          className={mark.className}
        />
      );
    case "line":
      return (
        <line
          key={key}
          x1={round(mark.x1)}
          y1={round(mark.y1)}
          x2={round(mark.x2)}
          y2={round(mark.y2)}
          className={mark.className}
        />
      );
    case "path":
      return <path key={key} d={mark.d} className={mark.className} />;
    case "circle":
      return (
        <circle
          key={key}
          cx={round(mark.cx)}
          cy={round(mark.cy)}
          r={round(mark.r)}
          className={mark.className}
        />
      );
    case "text":
      return (
        <text
          key={key}
          x={round(mark.x)}
          y={round(mark.y)}
          className={mark.className}
          textAnchor={mark.anchor ?? "start"}
          {...(mark.turn === undefined
            ? {}
            : { transform: `rotate(${mark.turn} ${round(mark.x)} ${round(mark.y)})` })}
        >
          {mark.text}
        </text>
      );
  }
}

/** A scene as SVG at its own size; further elements (highlights, handles) may be laid over it. */
export function Drawing({
  scene,
  className,
  children,
  hidden = false,
}: {
  readonly scene: Scene;
  readonly className?: string;
  readonly children?: ReactNode;
  readonly hidden?: boolean;
}) {
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: named by aria-label; a title element would pop up over the picture
    <svg
      width={scene.width}
      height={scene.height}
      viewBox={`0 0 ${scene.width} ${scene.height}`}
      {...(className === undefined ? {} : { className })}
      {...(hidden ? { "aria-hidden": true } : { role: "img", "aria-label": scene.words })}
    >
      <g>{scene.marks.map(markElement)}</g>
      {children}
    </svg>
  );
}
