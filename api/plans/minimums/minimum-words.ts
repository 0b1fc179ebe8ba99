import type { MinimumsAnswer } from "../../contract/minimums.contract.ts";
import type { MinimumFinding } from "../../scoring/minimums/check-minimum.ts";
import { plural } from "../words.ts";

/** One check in a sentence: what is required, what there is, what to do. */
export function checkWords(finding: MinimumFinding): string {
  const { status, why, required, shares, leftOut } = finding;
  if (why !== "") return why;
  const spared =
    leftOut.length === 0
      ? ""
      : ` The text leaves out ${leftOut.map(({ name }) => name).join(", ")}.`;
  if (required === 0) return `Nothing is asked of what is fitted.${spared}`;
  const asked = `${plural(required, "piece", "pieces")} required`;
  if (status === "met") return `${asked}, all aboard.${spared}`;
  if (status === "met with kit") {
    return `${asked}; ${plural(
      finding.shares.reduce((sum, share) => sum + share.aboard, 0),
      "is",
      "are",
    )} aboard and the kit brings the rest.${spared}`;
  }
  const gaps = shares
    .filter((share) => share.withKit < share.required)
    .map(
      ({ forWhat, required: need, withKit }) =>
        `${need - withKit}${forWhat === "" ? "" : ` for ${forWhat}`}`,
    );
  return `${asked}; even with the kit ${gaps.join(" and ")} still to find.${spared}`;
}

/** What all the lists together say. */
export function minimumsSentence(vessel: string, lists: MinimumsAnswer["lists"]): string {
  const checks = lists.flatMap((list) => list.checks);
  const count = (status: (typeof checks)[number]["status"]): number =>
    checks.filter((check) => check.status === status).length;
  const stated = [
    [count("met"), "met by what is aboard"],
    [count("met with kit"), "met once the kit is bought"],
    [count("short"), "short"],
    [count("to be judged"), "for you to judge"],
    [count("not applicable"), "about gear that is not listed as fitted"],
  ] as const;
  const told = stated
    .filter(([number]) => number > 0)
    .map(([number, what]) => `${number} ${number === 1 ? "is" : "are"} ${what}`);
  return `Of ${plural(checks.length, "rule", "rules")} in ${plural(lists.length, "minimum list", "minimum lists")}, for ${vessel}: ${told.length === 0 ? "nothing to check" : told.join(", ")}.`;
}
