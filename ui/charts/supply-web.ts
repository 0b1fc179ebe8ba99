import type { Mark, Scene } from "./scene.ts";

/** A record in the web, in one of its three columns. */
export interface WebNode {
  readonly id: string;
  readonly name: string;
  readonly note?: string;
}

export interface Web {
  readonly gear: readonly WebNode[];
  readonly parts: readonly WebNode[];
  readonly suppliers: readonly WebNode[];
  /** From gear to part, and from part to supplier. */
  readonly takes: readonly (readonly [gear: string, part: string])[];
  readonly sold: readonly (readonly [part: string, supplier: string])[];
  /** What was picked: drawn stronger. */
  readonly picked: string;
  readonly words: string;
}

const rowHeight = 34;
const head = 28;

/** Order of a column's nodes by the mean place of what they hang together with (barycentre), so that few lines cross. */
export function byNeighbours(
  nodes: readonly WebNode[],
  links: readonly (readonly [string, string])[],
  placeOf: ReadonlyMap<string, number>,
): readonly WebNode[] {
  const mean = (id: string) => {
    const places = links.flatMap(([a, b]) =>
      a === id ? [placeOf.get(b) ?? 0] : b === id ? [placeOf.get(a) ?? 0] : [],
    );
    return places.length === 0
      ? Number.POSITIVE_INFINITY
      : places.reduce((sum, place) => sum + place, 0) / places.length;
  };
  const means = new Map(nodes.map(({ id }) => [id, mean(id)]));
  return [...nodes].sort(
    (a, b) =>
      (means.get(a.id) ?? 0) - (means.get(b.id) ?? 0) ||
      a.name.localeCompare(b.name, "en", { numeric: true }),
  );
}

const clip = (text: string, letters: number) =>
  text.length > letters ? `${text.slice(0, Math.max(1, letters - 1))}…` : text;

/** Three columns, gear, parts and suppliers, with a line where one takes or sells another; for one selection only. */
export function layOutWeb(web: Web, width: number): Scene {
  const places = (nodes: readonly WebNode[]) =>
    new Map(nodes.map(({ id }, index) => [id, index / Math.max(1, nodes.length)]));
  const parts = byNeighbours(web.parts, web.takes, places(web.gear));
  const gear = byNeighbours(web.gear, web.takes, places(parts));
  const suppliers = byNeighbours(web.suppliers, web.sold, places(parts));
  const rows = Math.max(gear.length, parts.length, suppliers.length, 1);
  const height = head + rows * rowHeight + 6;
  const columnWidth = width * 0.27;
  const gap = (width - 3 * columnWidth) / 2;
  const letters = Math.floor(columnWidth / 7.2);
  const marks: Mark[] = [];
  const at = new Map<string, { x: number; y: number }>();
  const columns = [
    { title: "Gear", nodes: gear },
    { title: "Parts", nodes: parts },
    { title: "Suppliers", nodes: suppliers },
  ] as const;
  columns.forEach(({ nodes }, column) => {
    const space = (rows * rowHeight) / Math.max(1, nodes.length);
    nodes.forEach(({ id }, row) => {
      at.set(id, { x: column * (columnWidth + gap), y: head + (row + 0.5) * space });
    });
  });
  const isNear = (a: string, b: string) => a === web.picked || b === web.picked;
  for (const [a, b] of [...web.takes, ...web.sold]) {
    const from = at.get(a);
    const to = at.get(b);
    if (from === undefined || to === undefined) continue;
    const x1 = from.x + columnWidth;
    const bend = (to.x - x1) / 2;
    marks.push({
      kind: "path",
      d: `M${x1.toFixed(1)} ${from.y.toFixed(1)}C${(x1 + bend).toFixed(1)} ${from.y.toFixed(1)} ${(to.x - bend).toFixed(1)} ${to.y.toFixed(1)} ${to.x.toFixed(1)} ${to.y.toFixed(1)}`,
      className: isNear(a, b) ? "web-line web-near" : "web-line",
    });
  }
  columns.forEach(({ title, nodes }, column) => {
    marks.push({
      kind: "text",
      x: column * (columnWidth + gap) + 6,
      y: 16,
      text: `${title}, ${nodes.length}`,
      className: "axis-text",
    });
    for (const node of nodes) {
      const spot = at.get(node.id);
      if (spot === undefined) continue;
      marks.push(
        {
          kind: "rect",
          x: spot.x,
          y: spot.y - 14,
          width: columnWidth,
          height: 28,
          className: node.id === web.picked ? "web-node web-picked" : "web-node",
        },
        {
          kind: "text",
          x: spot.x + 6,
          y: spot.y + 5,
          text: clip(node.note === undefined ? node.name : `${node.name} ${node.note}`, letters),
          className: "web-name",
        },
      );
    }
  });
  return { width, height, words: web.words, marks };
}
