import { encode } from "uqr";

/** The quiet zone ISO/IEC 18004 asks for, in modules. */
const quiet = 4;

/** A text as a square code (QR, ISO/IEC 18004, level M), black on white whatever light is on. */
export function SquareCode({ text, name }: { readonly text: string; readonly name: string }) {
  const { data, size } = encode(text, { ecc: "M", border: 0 });
  let path = "";
  data.forEach((row, y) => {
    row.forEach((isDark, x) => {
      if (isDark) path += `M${x} ${y}h1v1h-1z`;
    });
  });
  return (
    <svg
      className="square-code"
      viewBox={`${-quiet} ${-quiet} ${size + 2 * quiet} ${size + 2 * quiet}`}
      role="img"
      aria-label={name}
      shapeRendering="crispEdges"
    >
      <rect
        x={-quiet}
        y={-quiet}
        width={size + 2 * quiet}
        height={size + 2 * quiet}
        className="code-ground"
      />
      <path d={path} className="code-ink" />
    </svg>
  );
}
