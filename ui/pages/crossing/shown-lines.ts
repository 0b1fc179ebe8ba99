import type { KitAnswer, KitLine } from "../../../api/contract/kit.contract.ts";
import type { Option } from "../../components/choice.tsx";
import { wholeText } from "../../components/figures.ts";

/** Which lines the kit table shows: the kit, what of it is still to buy, or every part that may be asked for. */
export type ShownLines = "kit" | "buy" | "all";

export const shownLines = (asked: string | undefined): ShownLines =>
  asked === "buy" || asked === "all" ? asked : "kit";

/** Whether a line is among those shown. */
export const isShown = (line: KitLine, shown: ShownLines): boolean =>
  shown === "all" || (shown === "buy" ? line.buy > 0 : line.carry > 0 || line.notUsable > 0);

const names: Readonly<Record<ShownLines, string>> = {
  kit: "the kit",
  buy: "still to buy",
  all: "every part considered",
};

/** The choices with how many parts each shows. */
export const lineChoices = (answer: KitAnswer): readonly Option[] =>
  (["kit", "buy", "all"] as const).map((id) => ({
    id,
    name: `${names[id]}: ${wholeText(answer.lines.filter((line) => isShown(line, id)).length)}`,
    ...(id === "all" ? { meaning: "With those of which none need be carried" } : {}),
  }));
