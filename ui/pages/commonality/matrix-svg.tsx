import { type CSSProperties, type KeyboardEvent, type PointerEvent, useMemo, useRef } from "react";
import { Drawing } from "../../charts/drawing.tsx";
import { neighboursOfModel, takersOfPart } from "../../charts/matrix-neighbours.ts";
import type { Replacement } from "../../charts/matrix-replacement.ts";
import { headHeight, type Matrix, type MatrixLayout } from "../../charts/parts-matrix.ts";
import type { Picked } from "./matrix-picked.ts";

/** A matrix of up to a few thousand marks as SVG: point at, tap or focus a model or a part and see what shares it. */
export function MatrixSvg({
  matrix,
  layout,
  rowHeight,
  columnWidth,
  pointed,
  kept,
  onPoint,
  onPick,
  replacement,
}: {
  readonly matrix: Matrix;
  readonly layout: MatrixLayout;
  readonly rowHeight: number;
  readonly columnWidth: number;
  readonly pointed: Picked;
  readonly kept: Picked;
  readonly onPoint: (picked: Picked) => void;
  readonly onPick: (picked: Picked) => void;
  readonly replacement: Replacement | undefined;
}) {
  const body = useRef<HTMLElement>(null);
  const picked = pointed.kind === "none" ? kept : pointed;
  const near = useMemo(
    () => (picked.kind === "model" ? neighboursOfModel(matrix, picked.index) : undefined),
    [matrix, picked],
  );
  const takers = useMemo(
    () => new Set(picked.kind === "part" ? takersOfPart(matrix, picked.index) : []),
    [matrix, picked],
  );
  const rowOf = (model: number) => layout.rows.find((row) => row.model === model);

  const partAt = (event: PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    return layout.columns[Math.floor((event.clientX - box.left) / columnWidth)];
  };
  const modelAt = (event: PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const y = event.clientY - box.top;
    return layout.rows.find((row) => y >= row.y && y < row.y + rowHeight)?.model;
  };
  const pointAt = (event: PointerEvent<HTMLElement>, keep: boolean) => {
    const part = partAt(event);
    const model = modelAt(event);
    const isCell =
      part !== undefined &&
      model !== undefined &&
      matrix.cells.some(([row, column]) => row === model && column === part);
    const next: Picked = isCell
      ? { kind: "part", index: part }
      : model !== undefined
        ? { kind: "model", index: model }
        : { kind: "none" };
    if (keep) onPick(next);
    else onPoint(next);
  };
  const steer = (event: KeyboardEvent<HTMLElement>, model: number) => {
    const at = layout.rows.findIndex((row) => row.model === model);
    const focusRow = (index: number) => {
      const row = layout.rows[index];
      if (row === undefined) return;
      body.current?.querySelector<HTMLElement>(`[data-model="${row.model}"]`)?.focus();
    };
    const sideways = (step: number) => {
      const now = kept.kind === "part" ? layout.columns.indexOf(kept.index) : -1;
      const next = layout.columns[Math.min(layout.columns.length - 1, Math.max(0, now + step))];
      if (next !== undefined) {
        onPoint({ kind: "none" });
        onPick({ kind: "part", index: next });
        const x = layout.columnX(next) ?? 0;
        const box = body.current;
        if (box !== null && (x < box.scrollLeft || x > box.scrollLeft + box.clientWidth - 260))
          box.scrollLeft = x - 80;
      }
    };
    switch (event.key) {
      case "ArrowDown":
        focusRow(at + 1);
        break;
      case "ArrowUp":
        focusRow(at - 1);
        break;
      case "Home":
        focusRow(0);
        break;
      case "End":
        focusRow(layout.rows.length - 1);
        break;
      case "ArrowRight":
        sideways(1);
        break;
      case "ArrowLeft":
        sideways(-1);
        break;
      case "Escape":
        onPick({ kind: "none" });
        break;
      default:
        return;
    }
    event.preventDefault();
  };

  const focusable =
    kept.kind === "model" && rowOf(kept.index) !== undefined ? kept.index : layout.rows[0]?.model;
  const pickedX = picked.kind === "part" ? layout.columnX(picked.index) : undefined;

  return (
    <section
      className="matrix-box"
      ref={body}
      aria-label="Parts matrix"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling box must be reachable by keyboard (WCAG 2.1.1)
      tabIndex={0}
      style={{ "--row": `${rowHeight}px` } as CSSProperties}
    >
      <div className="matrix-corner">
        <span>parts: shared + lone</span>
        <span>models per part →</span>
      </div>
      <div
        className="matrix-head"
        onPointerMove={(event) => {
          const part = partAt(event);
          if (part !== undefined) onPoint({ kind: "part", index: part });
        }}
        onPointerLeave={() => onPoint({ kind: "none" })}
        onPointerUp={(event) => {
          const part = partAt(event);
          if (part !== undefined) onPick({ kind: "part", index: part });
        }}
      >
        <Drawing scene={layout.head} hidden>
          {pickedX !== undefined && (
            <rect
              x={pickedX}
              y={0}
              width={columnWidth}
              height={headHeight}
              className="matrix-pick-frame"
            />
          )}
        </Drawing>
      </div>
      <ol className="matrix-labels">
        {layout.rows.map((row) => {
          const model = matrix.models[row.model];
          if (model === undefined) return null;
          const band = layout.bands.find(
            ({ category, y }) => category === model.category && y === row.y - rowHeight,
          )?.category;
          const isMate = near?.sharedWith.has(row.model) === true || takers.has(row.model);
          const isPicked = picked.kind === "model" && picked.index === row.model;
          return (
            <li key={model.id}>
              {band !== undefined && <span className="matrix-category">{band}</span>}
              <button
                type="button"
                data-model={row.model}
                className={`matrix-label ${isPicked ? "picked" : ""} ${isMate ? "mate" : ""} ${replacement?.replaced === row.model ? "struck" : ""}`}
                tabIndex={row.model === focusable ? 0 : -1}
                aria-pressed={kept.kind === "model" && kept.index === row.model}
                onFocus={() => {
                  if (kept.kind !== "model" || kept.index !== row.model)
                    onPick({ kind: "model", index: row.model });
                }}
                onClick={() => onPick({ kind: "model", index: row.model })}
                onPointerEnter={() => onPoint({ kind: "model", index: row.model })}
                onPointerLeave={() => onPoint({ kind: "none" })}
                onKeyDown={(event) => steer(event, row.model)}
              >
                <span className="matrix-name">
                  {model.name}
                  {row.soleOf !== undefined && <span className="matrix-sole"> {row.soleOf}</span>}
                  {near?.sharedWith.has(row.model) === true && (
                    <span className="matrix-shares"> {near.sharedWith.get(row.model)} shared</span>
                  )}
                </span>
                <span className="matrix-total">
                  <span className="hidden">, </span>
                  {row.shared}
                  <span aria-hidden="true">+</span>
                  <span className="hidden"> shared and </span>
                  {row.lone}
                  <span className="hidden"> lone parts</span>
                </span>
                <svg className="matrix-lane" width="44" height="10" aria-hidden="true">
                  <rect
                    width={layout.barLength(row.shared, 44)}
                    height="10"
                    className="matrix-bar"
                  />
                  <rect
                    x={layout.barLength(row.shared, 44)}
                    width={layout.barLength(row.lone, 44)}
                    height="10"
                    className="matrix-bar matrix-lone"
                  />
                </svg>
              </button>
            </li>
          );
        })}
      </ol>
      <div
        className="matrix-body"
        onPointerMove={(event) => {
          if (event.pointerType === "mouse") pointAt(event, false);
        }}
        onPointerLeave={() => onPoint({ kind: "none" })}
        onPointerUp={(event) => pointAt(event, true)}
      >
        <Drawing scene={layout.body}>
          {replacement !== undefined &&
            layout.columns.map((part) =>
              replacement.vanishing.has(part) ? (
                <rect
                  key={part}
                  x={layout.columnX(part) ?? 0}
                  y={0}
                  width={columnWidth}
                  height={layout.body.height}
                  className="matrix-gone"
                />
              ) : null,
            )}
          {replacement !== undefined && (
            <line
              x1={0}
              x2={layout.body.width}
              y1={(rowOf(replacement.replaced)?.y ?? 0) + rowHeight / 2}
              y2={(rowOf(replacement.replaced)?.y ?? 0) + rowHeight / 2}
              className="matrix-struck"
            />
          )}
          {picked.kind === "model" &&
            near !== undefined &&
            [...near.parts].map((part) => {
              const x = layout.columnX(part);
              return x === undefined ? null : (
                <rect
                  key={part}
                  x={x}
                  y={0}
                  width={columnWidth}
                  height={layout.body.height}
                  className="matrix-wash"
                />
              );
            })}
          {picked.kind === "model" && (
            <rect
              x={0}
              y={rowOf(picked.index)?.y ?? 0}
              width={layout.body.width}
              height={rowHeight}
              className="matrix-pick-frame"
            />
          )}
          {pickedX !== undefined && (
            <rect
              x={pickedX}
              y={0}
              width={columnWidth}
              height={layout.body.height}
              className="matrix-pick-frame"
            />
          )}
        </Drawing>
      </div>
    </section>
  );
}
