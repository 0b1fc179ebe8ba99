import { type PackOffer, type PartCover, packOffer, partCover } from "./part-cover.ts";
import type { Content, SaleProblem } from "./sale-problem.ts";
import { lastUseful, mostUseful } from "./useful-units.ts";

/** An offer that touches several parts asked for: what ties the parts together. */
export interface KitOffer {
  readonly offer: number;
  readonly contents: readonly Content[];
  readonly cost: number;
  readonly least: number;
  readonly most: number;
}

/** Service kits and the parts they tie together, directly or through one another. */
export interface KitGroup {
  readonly kits: readonly KitOffer[];
  readonly parts: readonly number[];
}

export interface SaleGroups {
  /** Per part: the cheapest ways to buy it by itself; undefined where its tier has no target. */
  readonly covers: readonly (PartCover | undefined)[];
  /** Per part: the last piece that still helps. */
  readonly last: Int32Array;
  readonly groups: readonly KitGroup[];
}

/**
 * Returns the problem taken apart: parts bought by themselves, each with its own cheapest covers, and groups of parts
 * tied together by service kits. Contents nobody asks for are left out, so a kit with one wanted part is a pack.
 */
export function saleGroups(problem: SaleProblem): SaleGroups {
  const { parts, offers, targets, objective } = problem;
  const isAsked = (p: number): boolean => {
    const part = parts[p];
    return part !== undefined && targets[part.tier] !== undefined;
  };
  const last = Int32Array.from(parts, (part) => lastUseful(part.logCdf));
  const packs = parts.map((): PackOffer[] => []);
  const kits: KitOffer[] = [];
  offers.forEach((offer, u) => {
    const contents = offer.contents.filter((content) => isAsked(content.part));
    const [first] = contents;
    if (first === undefined) return;
    const cost = offer.uses[objective];
    if (contents.length === 1 && first.pieces > 0) {
      packs[first.part]?.push(packOffer({ ...offer, contents }, u, cost));
    } else if (contents.some((content) => content.pieces > 0)) {
      const most = mostUseful({ ...problem, offers: withContents(problem, u, contents) }, u);
      const least = offer.least ?? 1;
      if (most >= least) kits.push({ offer: u, contents, cost, least, most });
    }
  });
  const covers = parts.map((_, p) =>
    isAsked(p) ? partCover(packs[p] ?? [], last[p] ?? 0) : undefined,
  );
  return { covers, last, groups: tied(kits, parts.length) };
}

const withContents = (
  { offers }: SaleProblem,
  u: number,
  contents: readonly Content[],
): SaleProblem["offers"] => offers.map((offer, at) => (at === u ? { ...offer, contents } : offer));

/** Kits that share a part, directly or through others, in one group. */
function tied(kits: readonly KitOffer[], parts: number): readonly KitGroup[] {
  const root = Int32Array.from({ length: parts }, (_, p) => p);
  const find = (p: number): number => {
    let at = p;
    while (root[at] !== at) at = root[at] ?? at;
    return at;
  };
  for (const kit of kits) {
    const first = find(kit.contents[0]?.part ?? 0);
    for (const { part } of kit.contents) root[find(part)] = first;
  }
  const found = new Map<number, { kits: KitOffer[]; parts: Set<number> }>();
  for (const kit of kits) {
    const name = find(kit.contents[0]?.part ?? 0);
    const group = found.get(name) ?? { kits: [], parts: new Set() };
    found.set(name, group);
    group.kits.push(kit);
    for (const { part } of kit.contents) group.parts.add(part);
  }
  return [...found.values()].map((group) => ({
    kits: group.kits,
    parts: [...group.parts].sort((a, b) => a - b),
  }));
}
