import { useMemo, useState } from "react";
import { Button, Switch } from "react-aria-components";
import { layOutGrid } from "../../charts/matrix-grid.ts";
import { modelWords, partWords } from "../../charts/matrix-neighbours.ts";
import { replaceInMatrix } from "../../charts/matrix-replacement.ts";
import { layOutPartsMatrix, type Matrix } from "../../charts/parts-matrix.ts";
import { wholeMatrixScene } from "../../charts/whole-matrix.ts";
import { Choice } from "../../components/choice.tsx";
import { plural } from "../../components/figures.ts";
import { Picture } from "../../components/picture.tsx";
import { changeQuery } from "../../routing/route.ts";
import { MatrixCanvas } from "./matrix-canvas.tsx";
import type { Picked } from "./matrix-picked.ts";
import { MatrixSvg } from "./matrix-svg.tsx";
import { matrixTable } from "./matrix-table.ts";

/** Above so many marks the matrix is drawn on canvas. */
const mostSvgMarks = 3_000;
const none: Picked = { kind: "none" };
const nobody = "none";

const isCoarse = () => window.matchMedia("(pointer: coarse)").matches;

/** Choosing a model to replace and one to stand in for it; the choice is in the address, so Back undoes it. */
function ReplacementForm({
  matrix,
  replaced,
  by,
}: {
  readonly matrix: Matrix;
  readonly replaced: number;
  readonly by: number;
}) {
  const category = matrix.models[replaced]?.category;
  const option = ({ id, name }: Matrix["models"][number]) => ({ id, name });
  const others = matrix.models.filter((_, index) => index !== replaced);
  const alike = others.filter((model) => model.category === category).map(option);
  return (
    <div className="settings matrix-replace">
      <Choice
        label="Suppose we replaced"
        value={matrix.models[replaced]?.id ?? nobody}
        groups={[
          { name: "", options: [{ id: nobody, name: "nothing" }, ...matrix.models.map(option)] },
        ]}
        onChange={(id) => changeQuery({ replace: id === nobody ? "" : id, by: "" })}
      />
      {category !== undefined && (
        <Choice
          label="by"
          value={matrix.models[by]?.id ?? null}
          placeholder="Choose a model"
          groups={[
            { name: `Also ${category}`, options: alike },
            {
              name: "Other gear",
              options: others.filter((model) => model.category !== category).map(option),
            },
          ].filter(({ options }) => options.length > 0)}
          onChange={(id) => changeQuery({ by: id })}
        />
      )}
    </div>
  );
}

/** The parts matrix with what is picked, what a replacement would make vanish, its table and files. */
export function MatrixPicture({
  matrix,
  query,
}: {
  readonly matrix: Matrix;
  readonly query: ReadonlyMap<string, string>;
}) {
  const [isAll, setAll] = useState(() => matrix.parts.length <= 60);
  const [isNear, setNear] = useState(true);
  const [pointed, setPointed] = useState<Picked>(none);
  const [kept, setKept] = useState<Picked>(none);
  const grid = useMemo(() => layOutGrid(matrix, !isAll), [matrix, isAll]);
  const isLarge = grid.cellRow.length > mostSvgMarks;
  const columnWidth = isNear ? 17 : 8;
  const rowHeight = useMemo(() => (isCoarse() ? 44 : 28), []);
  const layout = useMemo(
    () =>
      isLarge
        ? undefined
        : layOutPartsMatrix(matrix, { sharedOnly: !isAll, rowHeight, columnWidth }),
    [matrix, isAll, isLarge, rowHeight, columnWidth],
  );
  const replaced = matrix.models.findIndex(({ id }) => id === query.get("replace"));
  const by = matrix.models.findIndex(({ id }) => id === query.get("by"));
  const replacement = useMemo(
    () => (replaced < 0 || by < 0 ? undefined : replaceInMatrix(matrix, replaced, by)),
    [matrix, replaced, by],
  );
  const table = useMemo(() => matrixTable(matrix, grid.columns), [matrix, grid]);
  const picked = pointed.kind === "none" ? kept : pointed;
  const said =
    picked.kind === "model"
      ? modelWords(matrix, picked.index)
      : picked.kind === "part"
        ? partWords(matrix, picked.index)
        : `Point at a model or a mark to see what shares it${isLarge ? "" : "; arrow keys move from model to model and along the parts"}.`;
  const words = layOutWords(matrix, grid.takers);
  const hidden = matrix.parts.length - grid.columns.length;
  return (
    <Picture
      name="parts-matrix"
      className="matrix"
      caption={
        <>
          {words}{" "}
          {hidden > 0 &&
            `${plural(hidden, "lone part is", "lone parts are")} counted beside the models and not drawn.`}
        </>
      }
      scene={() => wholeMatrixScene(matrix, !isAll, words)}
      table={table}
    >
      <ReplacementForm matrix={matrix} replaced={replaced} by={by} />
      {replacement !== undefined && (
        <p className="matrix-outcome" role="status">
          {replacement.words}{" "}
          <Button className="quiet" onPress={() => changeQuery({ replace: "", by: "" })}>
            Put it back
          </Button>
        </p>
      )}
      <div className="matrix-switches">
        <Switch isSelected={isAll} onChange={setAll} className="switch">
          <span className="switch-track" aria-hidden="true" />
          Draw parts that one model only takes
        </Switch>
        {!isLarge && (
          <Switch isSelected={!isNear} onChange={(isFar) => setNear(!isFar)} className="switch">
            <span className="switch-track" aria-hidden="true" />
            From farther off
          </Switch>
        )}
      </div>
      <p className="matrix-said" aria-live="polite">
        {said}
      </p>
      {layout === undefined ? (
        <MatrixCanvas
          matrix={matrix}
          grid={grid}
          picked={picked}
          onPoint={setPointed}
          onPick={setKept}
          replacement={replacement}
        />
      ) : (
        <MatrixSvg
          matrix={matrix}
          layout={layout}
          rowHeight={rowHeight}
          columnWidth={columnWidth}
          pointed={pointed}
          kept={kept}
          onPoint={setPointed}
          onPick={setKept}
          replacement={replacement}
        />
      )}
    </Picture>
  );
}

/** What the matrix says as a whole. */
function layOutWords(matrix: Matrix, takers: Uint32Array): string {
  const shared = takers.filter((count) => count > 1).length;
  return (
    `${plural(matrix.models.length, "model")} by ${plural(matrix.parts.length, "part")}: ${plural(shared, "part is", "parts are")} taken ` +
    `by two models or more, ${matrix.parts.length - shared} by one model only.`
  );
}
