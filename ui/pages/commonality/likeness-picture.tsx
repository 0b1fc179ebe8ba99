import { useMemo } from "react";
import type { CommonalityAnswer } from "../../../api/contract/commonality.contract.ts";
import { Drawing } from "../../charts/drawing.tsx";
import { type Likeness, layOutLikeness, likeGroups } from "../../charts/likeness-map.ts";
import { plural, wholeText } from "../../components/figures.ts";
import { Picture } from "../../components/picture.tsx";
import type { Column } from "../../components/table/column.ts";
import { useWidth } from "../../components/use-width.ts";

type Pair = CommonalityAnswer["likeness"][number];

const columns: readonly Column<Pair>[] = [
  { id: "a", name: "Model", kind: "name", cell: ({ a }) => a.name },
  { id: "b", name: "and", cell: ({ b }) => b.name },
  {
    id: "shared",
    name: "Shared parts",
    kind: "number",
    cell: ({ shared }) => wholeText(shared),
    value: ({ shared }) => shared,
  },
  {
    id: "jaccard",
    name: "Of what either takes",
    kind: "number",
    cell: ({ jaccard }) => `${Math.round(jaccard * 100)} %`,
    value: ({ jaccard }) => jaccard,
  },
];

/** The finding: how many groups, which two are most alike, how many share nothing. */
function wordsOf(answer: CommonalityAnswer, groups: readonly (readonly string[])[]): string {
  const [first] = answer.likeness;
  const grouped = groups.reduce((sum, group) => sum + group.length, 0);
  const alone = answer.matrix.models.length - grouped;
  if (first === undefined) return "No two models share a part.";
  return (
    `${plural(grouped, "model")} stand in ${plural(groups.length, "group")} that share parts; ` +
    `most alike are ${first.a.name} and ${first.b.name}, ${Math.round(first.jaccard * 100)} % in common. ` +
    `${alone === 0 ? "None stands alone" : `${plural(alone, "model shares", "models share")} nothing with any other`}.`
  );
}

/** Models that share parts, drawn the nearer the more alike they are. */
export function LikenessPicture({ answer }: { readonly answer: CommonalityAnswer }) {
  const { frame, width } = useWidth(280, 1100);
  const { models } = answer.matrix;
  const pairs = useMemo(
    () =>
      answer.likeness.map(
        ({ a, b, jaccard, shared }): Likeness => ({ a: a.id, b: b.id, jaccard, shared }),
      ),
    [answer],
  );
  const words = useMemo(() => wordsOf(answer, likeGroups(models, pairs)), [answer, models, pairs]);
  const scene = useMemo(
    () => layOutLikeness(models, pairs, width, words),
    [models, pairs, width, words],
  );
  if (pairs.length === 0) return <p>{words}</p>;
  return (
    <Picture
      name="likeness-of-models"
      caption={`${words} Nearer is more alike; a larger sign is fitted more often; shape and colour are the category's.`}
      scene={() => layOutLikeness(models, pairs, 1000, words)}
      table={{
        caption: "Pairs of models that share parts",
        columns,
        rows: answer.likeness,
        rowKey: ({ a, b }) => `${a.id} ${b.id}`,
      }}
    >
      <div ref={frame}>
        <Drawing scene={scene} />
      </div>
    </Picture>
  );
}
