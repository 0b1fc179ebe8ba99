import {
  type CSSProperties,
  type KeyboardEvent,
  type PointerEvent,
  useMemo,
  useRef,
  useState,
} from "react";
import { Switch } from "react-aria-components";
import { Drawing } from "../../charts/drawing.tsx";
import {
  modelWords,
  neighboursOfModel,
  partWords,
  takersOfPart,
} from "../../charts/matrix-neighbours.ts";
import { headHeight, layOutPartsMatrix, type Matrix } from "../../charts/parts-matrix.ts";
import { plural } from "../../components/figures.ts";
import { MatrixTable } from "./matrix-table.tsx";

type Picked =
  | { readonly kind: "none" }
  | { readonly kind: "model"; readonly index: number }
  | { readonly kind: "part"; readonly index: number };

const columnWidth = 17;

const isCoarse = () => window.matchMedia("(pointer: coarse)").matches;

/** The parts matrix: point at, tap or focus a model or a part and see what shares it. */
export function MatrixPicture({ matrix }: { readonly matrix: Matrix }) {
  const [isAll, setAll] = useState(() => matrix.parts.length <= 60);
  const [pointed, setPointed] = useState<Picked>({ kind: "none" });
  const [kept, setKept] = useState<Picked>({ kind: "none" });
  const body = useRef<HTMLDivElement>(null);
  const rowHeight = useMemo(() => (isCoarse() ? 44 : 28), []);
  const layout = useMemo(
    () => layOutPartsMatrix(matrix, { sharedOnly: !isAll, rowHeight, columnWidth }),
    [matrix, isAll, rowHeight],
  );
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
    if (keep) setKept(next);
    else setPointed(next);
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
        setPointed({ kind: "none" });
        setKept({ kind: "part", index: next });
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
        setKept({ kind: "none" });
        break;
      default:
        return;
    }
    event.preventDefault();
  };

  const said =
    picked.kind === "model"
      ? modelWords(matrix, picked.index)
      : picked.kind === "part"
        ? partWords(matrix, picked.index)
        : "Point at a model or a mark to see what shares it; arrow keys move from model to model and along the parts.";
  const focusable =
    kept.kind === "model" && rowOf(kept.index) !== undefined ? kept.index : layout.rows[0]?.model;
  const pickedX = picked.kind === "part" ? layout.columnX(picked.index) : undefined;

  return (
    <figure className="matrix">
      <figcaption>
        {layout.body.words}{" "}
        {layout.hiddenParts > 0 &&
          `${plural(layout.hiddenParts, "lone part is", "lone parts are")} counted beside the models and not drawn.`}
      </figcaption>
      <Switch isSelected={isAll} onChange={setAll} className="switch">
        <span className="switch-track" aria-hidden="true" />
        Draw parts that one model only takes
      </Switch>
      <p className="matrix-said" aria-live="polite">
        {said}
      </p>
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
            if (part !== undefined) setPointed({ kind: "part", index: part });
          }}
          onPointerLeave={() => setPointed({ kind: "none" })}
          onPointerUp={(event) => {
            const part = partAt(event);
            if (part !== undefined) setKept({ kind: "part", index: part });
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
                  className={`matrix-label ${isPicked ? "picked" : ""} ${isMate ? "mate" : ""}`}
                  tabIndex={row.model === focusable ? 0 : -1}
                  aria-pressed={kept.kind === "model" && kept.index === row.model}
                  onFocus={() => {
                    if (kept.kind !== "model" || kept.index !== row.model)
                      setKept({ kind: "model", index: row.model });
                  }}
                  onClick={() => setKept({ kind: "model", index: row.model })}
                  onPointerEnter={() => setPointed({ kind: "model", index: row.model })}
                  onPointerLeave={() => setPointed({ kind: "none" })}
                  onKeyDown={(event) => steer(event, row.model)}
                >
                  <span className="matrix-name">
                    {model.name}
                    {row.soleOf !== undefined && <span className="matrix-sole"> {row.soleOf}</span>}
                    {near?.sharedWith.has(row.model) === true && (
                      <span className="matrix-shares">
                        {" "}
                        {near.sharedWith.get(row.model)} shared
                      </span>
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
          onPointerLeave={() => setPointed({ kind: "none" })}
          onPointerUp={(event) => pointAt(event, true)}
        >
          <Drawing scene={layout.body}>
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
      <details>
        <summary>The same as a table</summary>
        <MatrixTable matrix={matrix} columns={layout.columns} />
      </details>
    </figure>
  );
}
