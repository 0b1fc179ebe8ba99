import { Download } from "lucide-react";
import { type ReactNode, useState } from "react";
import { Button } from "react-aria-components";
import type { Scene } from "../charts/scene.ts";
import { saveFile } from "../data/save-file.ts";
import type { Column } from "./table/column.ts";
import { DataTable } from "./table/data-table.tsx";
import { rowsAsCsv } from "./table/rows-as-csv.ts";

/** The table that says what a picture shows. */
export interface PictureTable<Row> {
  readonly caption: string;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  readonly rowKey: (row: Row) => string;
  readonly rowClass?: (row: Row) => string;
}

/**
 * Every picture of the screen: its finding in words, the drawing, the same as a table, and files to keep. `scene` is
 * called when a file is asked for, and gives the whole picture even where the page shows a part of it.
 */
export function Picture<Row>({
  name,
  className = "",
  caption,
  scene,
  table,
  children,
}: {
  /** The files' name, without ending. */
  readonly name: string;
  readonly className?: string;
  readonly caption: ReactNode;
  readonly scene: () => Scene;
  readonly table: PictureTable<Row>;
  readonly children: ReactNode;
}) {
  const [problem, setProblem] = useState("");
  const [isOpen, setOpen] = useState(false);
  const save = async (kind: "svg" | "png" | "csv") => {
    setProblem("");
    try {
      if (kind === "csv") {
        saveFile(`${name}.csv`, "text/csv", rowsAsCsv(table.columns, table.rows));
        return;
      }
      const { sceneAsSvg, svgAsPng } = await import("../charts/scene-as-file.tsx");
      const whole = scene();
      const svg = sceneAsSvg(whole);
      if (kind === "svg") saveFile(`${name}.svg`, "image/svg+xml", svg);
      else saveFile(`${name}.png`, "image/png", await svgAsPng(svg, whole));
    } catch (error) {
      setProblem(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <figure className={`picture ${className}`}>
      <figcaption>{caption}</figcaption>
      {children}
      <div className="picture-foot">
        <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
          <summary>The same as a table</summary>
          {isOpen && <DataTable className="tall" sorts {...table} />}
        </details>
        <div className="picture-files">
          <Download size={16} aria-hidden="true" />
          {(["svg", "png", "csv"] as const).map((kind) => (
            <Button key={kind} className="plain" onPress={() => void save(kind)}>
              <span className="hidden">Save {table.caption} as </span>
              {kind.toUpperCase()}
            </Button>
          ))}
        </div>
      </div>
      {problem !== "" && <p role="alert">{problem}</p>}
    </figure>
  );
}
