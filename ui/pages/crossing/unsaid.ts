import type { KitAnswer } from "../../../api/contract/kit.contract.ts";

/** What the kit above says already of how it was reached. */
export type SaidNotices = KitAnswer["notices"];

/** Notices of a section that the page does not bear already. */
export const unsaid = (notices: SaidNotices, said: SaidNotices): SaidNotices =>
  notices.filter(({ text }) => !said.some((other) => other.text === text));
