import type { PartClasses } from "../scoring/classes/part-classes.ts";
import type { GearPicture } from "../scoring/snapshot/snapshot.ts";
import { plural } from "./words.ts";

const mostNamed = 4;

/** Interchanges that were stated and not used, why, and what using them would change. */
export function interchangeNotices(
  { parts, makers, interchange }: GearPicture,
  classes: Pick<PartClasses, "unproven" | "unconfirmed" | "safetyApart">,
): readonly { readonly code: string; readonly text: string }[] {
  const { unproven, unconfirmed, safetyApart } = classes;
  const name = (part: number): string =>
    `${makers.name[parts.maker[part] ?? -1] ?? ""} ${parts.partNumber[part] ?? ""}`.trim();
  const pairs = safetyApart
    .slice(0, mostNamed)
    .map((pair) => `${name(interchange.a[pair] ?? -1)} and ${name(interchange.b[pair] ?? -1)}`);
  const further = safetyApart.length - pairs.length;
  const list = `${pairs.join("; ")}${further > 0 ? `; and ${further} more` : ""}`;
  const notices: { code: string; text: string }[] = [];
  if (safetyApart.length > 0) {
    const [touch, is, it] =
      safetyApart.length === 1 ? ["touches", "is", "it"] : ["touch", "are", "them"];
    notices.push({
      code: "interchange-safety-apart",
      text: `${plural(safetyApart.length, "interchange")} ${touch} safety gear and ${is} not confirmed, so these parts are kept apart: ${list}. Confirm ${it} if the maker says so; their stock, demand and offers then count together.`,
    });
  }
  if (unproven > 0) {
    notices.push({
      code: "interchange-unproven",
      text: `${plural(unproven, "unproven interchange")} not used: confirm them to pool their stock.`,
    });
  }
  if (unconfirmed > 0) {
    notices.push({
      code: "interchange-unconfirmed",
      text: `${plural(unconfirmed, "interchange is", "interchanges are")} stated but not confirmed, and so not used here.`,
    });
  }
  return notices;
}
