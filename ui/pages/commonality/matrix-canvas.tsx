import { Maximize, Minus, Plus } from "lucide-react";
import { type PointerEvent, useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import { Button } from "react-aria-components";
import { drawMatrix, type MatrixColours, readable } from "../../charts/draw-matrix.ts";
import type { MatrixGrid } from "../../charts/matrix-grid.ts";
import { neighboursOfModel, takersOfPart } from "../../charts/matrix-neighbours.ts";
import type { Replacement } from "../../charts/matrix-replacement.ts";
import { cellSizes, type MatrixView, spotAt } from "../../charts/matrix-view.ts";
import type { Matrix } from "../../charts/parts-matrix.ts";
import type { Picked } from "./matrix-picked.ts";

const zoomStep = 0.2;
/** The head is high enough for parts' names once they can be read. */
const namesHeight = 118;
const barsHeight = 48;

const coloursOf = (element: Element): MatrixColours => {
  const style = getComputedStyle(element);
  const of = (name: string) => style.getPropertyValue(name).trim();
  return {
    paper: of("--paper"),
    band: of("--band"),
    ink: of("--ink"),
    soft: of("--soft"),
    rule: of("--rule"),
    frame: of("--frame"),
    cell: of("--cell"),
    lone: of("--cell-lone"),
    mate: of("--cell-mate"),
    pick: of("--pick"),
  };
};

const isMotionReduced = () => window.matchMedia("(prefers-reduced-motion: reduce)").matches;
const fading = 450;

/** How much of what vanishes is gone: runs from 0 to 1 once for each replacement, at once where motion is unwanted. */
function useGone(replacement: Replacement | undefined): number {
  const [gone, setGone] = useState(0);
  useEffect(() => {
    if (replacement === undefined || isMotionReduced()) {
      setGone(replacement === undefined ? 0 : 1);
      return;
    }
    const from = performance.now();
    let frame = 0;
    const step = () => {
      const share = Math.min(1, (performance.now() - from) / fading);
      setGone(share);
      if (share < 1) frame = requestAnimationFrame(step);
    };
    step();
    return () => cancelAnimationFrame(frame);
  }, [replacement]);
  return gone;
}

/** A matrix of many thousand marks on canvas: scroll to pan, two fingers, the wheel with Ctrl or the buttons to zoom. */
export function MatrixCanvas({
  matrix,
  grid,
  picked,
  onPoint,
  onPick,
  replacement,
}: {
  readonly matrix: Matrix;
  readonly grid: MatrixGrid;
  readonly picked: Picked;
  readonly onPoint: (picked: Picked) => void;
  readonly onPick: (picked: Picked) => void;
  readonly replacement: Replacement | undefined;
}) {
  const box = useRef<HTMLElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  const [zoom, setZoom] = useState(0);
  /** The point of the matrix that stays under the fingers while the zoom changes, as shares of its size. */
  const anchor = useRef<{ x: number; y: number; atX: number; atY: number }>(undefined);
  const gone = useGone(replacement);
  const labelWidth = size.width < 600 ? 120 : 240;
  const cell = cellSizes(
    zoom,
    { rows: grid.rows.length, columns: grid.columns.length },
    { width: size.width - labelWidth - 2, height: size.height - barsHeight - 2 },
  );
  const headHeight = cell.columnWidth >= readable ? namesHeight : barsHeight;
  const whole = {
    width: grid.columns.length * cell.columnWidth,
    height: grid.rows.length * cell.rowHeight,
  };
  const state = useMemo(
    () => ({
      model: picked.kind === "model" ? picked.index : undefined,
      part: picked.kind === "part" ? picked.index : undefined,
      mates:
        picked.kind === "part"
          ? new Set(takersOfPart(matrix, picked.index))
          : picked.kind === "model"
            ? new Set(neighboursOfModel(matrix, picked.index).sharedWith.keys())
            : new Set<number>(),
      parts:
        picked.kind === "model" ? neighboursOfModel(matrix, picked.index).parts : new Set<number>(),
    }),
    [matrix, picked],
  );

  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return;
    const look = () => setSize({ width: element.clientWidth, height: element.clientHeight });
    look();
    const watch = new ResizeObserver(look);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);

  const viewNow = (): MatrixView => ({
    ...cell,
    labelWidth,
    headHeight,
    left: box.current?.scrollLeft ?? 0,
    top: box.current?.scrollTop ?? 0,
    ...size,
  });

  // Drawn after every change and on every scroll, at most once a frame.
  useLayoutEffect(() => {
    const element = box.current;
    const sheet = canvas.current;
    const pen = sheet?.getContext("2d", { alpha: false });
    if (element === null || sheet === null || pen === null || pen === undefined || size.width === 0)
      return;
    const held = anchor.current;
    if (held !== undefined) {
      element.scrollLeft = held.x * whole.width - (held.atX - labelWidth);
      element.scrollTop = held.y * whole.height - (held.atY - headHeight);
      anchor.current = undefined;
    }
    const dots = window.devicePixelRatio || 1;
    if (sheet.width !== Math.round(size.width * dots)) sheet.width = Math.round(size.width * dots);
    if (sheet.height !== Math.round(size.height * dots))
      sheet.height = Math.round(size.height * dots);
    const colours = coloursOf(element);
    let frame = 0;
    const draw = () => {
      frame = 0;
      pen.setTransform(dots, 0, 0, dots, 0, 0);
      drawMatrix(
        pen,
        matrix,
        grid,
        viewNow(),
        {
          ...state,
          replaced: replacement?.replaced,
          vanishing: replacement?.vanishing ?? new Set(),
          gone,
        },
        colours,
      );
      sheet.dataset["drawn"] = "yes";
    };
    draw();
    const scrolled = () => {
      if (frame === 0) frame = requestAnimationFrame(draw);
    };
    element.addEventListener("scroll", scrolled, { passive: true });
    const relit = new MutationObserver(() => {
      Object.assign(colours, coloursOf(element));
      draw();
    });
    relit.observe(document.documentElement, { attributeFilter: ["data-scheme"] });
    return () => {
      element.removeEventListener("scroll", scrolled);
      relit.disconnect();
      cancelAnimationFrame(frame);
    };
  });

  const zoomTo = (
    next: number,
    atX = labelWidth + (size.width - labelWidth) / 2,
    atY = size.height / 2,
  ) => {
    const view = viewNow();
    anchor.current = {
      x: (view.left + atX - labelWidth) / Math.max(1, whole.width),
      y: (view.top + atY - headHeight) / Math.max(1, whole.height),
      atX,
      atY,
    };
    setZoom(Math.min(1, Math.max(0, next)));
  };
  const zoomRef = useRef({ zoom, zoomTo });
  zoomRef.current = { zoom, zoomTo };

  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    const wheel = (event: WheelEvent) => {
      if (!event.ctrlKey && !event.metaKey) return;
      event.preventDefault();
      const at = element.getBoundingClientRect();
      zoomRef.current.zoomTo(
        zoomRef.current.zoom - event.deltaY / 600,
        event.clientX - at.left,
        event.clientY - at.top,
      );
    };
    element.addEventListener("wheel", wheel, { passive: false });
    return () => element.removeEventListener("wheel", wheel);
  }, []);

  const fingers = useRef(new Map<number, { x: number; y: number }>());
  const spread = () => {
    const [a, b] = [...fingers.current.values()];
    return a === undefined || b === undefined ? undefined : Math.hypot(a.x - b.x, a.y - b.y);
  };
  const place = (event: PointerEvent<HTMLElement>) => {
    const at = event.currentTarget.getBoundingClientRect();
    return { x: event.clientX - at.left, y: event.clientY - at.top };
  };
  const pickedAt = (event: PointerEvent<HTMLElement>): Picked => {
    const { x, y } = place(event);
    const spot = spotAt(grid, viewNow(), x, y);
    const column = spot.part === undefined ? -1 : grid.columns.indexOf(spot.part);
    const isCell =
      column >= 0 &&
      spot.model !== undefined &&
      grid.cellRow.subarray(grid.start[column], grid.start[column + 1]).includes(spot.model);
    if (spot.part !== undefined && (isCell || spot.model === undefined))
      return { kind: "part", index: spot.part };
    return spot.model === undefined ? { kind: "none" } : { kind: "model", index: spot.model };
  };

  return (
    <div className="matrix-frame">
      <div className="matrix-tools">
        <Button className="quiet" onPress={() => zoomTo(zoom + zoomStep)} isDisabled={zoom >= 1}>
          <Plus size={18} aria-hidden="true" /> Nearer
        </Button>
        <Button className="quiet" onPress={() => zoomTo(zoom - zoomStep)} isDisabled={zoom <= 0}>
          <Minus size={18} aria-hidden="true" /> Farther
        </Button>
        <Button className="quiet" onPress={() => setZoom(0)} isDisabled={zoom === 0}>
          <Maximize size={18} aria-hidden="true" /> All of it
        </Button>
      </div>
      <section
        ref={box}
        className="matrix-big"
        aria-label="Parts matrix"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling box must be reachable by keyboard (WCAG 2.1.1)
        tabIndex={0}
        onPointerDown={(event) => fingers.current.set(event.pointerId, place(event))}
        onPointerMove={(event) => {
          const before = spread();
          if (fingers.current.has(event.pointerId))
            fingers.current.set(event.pointerId, place(event));
          const now = spread();
          if (before !== undefined && now !== undefined) {
            const [a, b] = [...fingers.current.values()];
            if (a !== undefined && b !== undefined)
              zoomTo(
                zoom + Math.log(now / Math.max(1, before)) / 3,
                (a.x + b.x) / 2,
                (a.y + b.y) / 2,
              );
          } else if (event.pointerType === "mouse") onPoint(pickedAt(event));
        }}
        onPointerUp={(event) => {
          const down = fingers.current.get(event.pointerId);
          const isTap = fingers.current.size === 1 && down !== undefined;
          fingers.current.delete(event.pointerId);
          if (isTap) onPick(pickedAt(event));
        }}
        onPointerCancel={(event) => fingers.current.delete(event.pointerId)}
        onPointerLeave={(event) => {
          fingers.current.delete(event.pointerId);
          onPoint({ kind: "none" });
        }}
      >
        <div
          className="matrix-ground"
          style={{
            width: `${labelWidth + whole.width}px`,
            height: `${headHeight + whole.height}px`,
          }}
        >
          <canvas
            ref={canvas}
            className="matrix-sheet"
            style={{ width: `${size.width}px`, height: `${size.height}px` }}
          />
        </div>
      </section>
    </div>
  );
}
