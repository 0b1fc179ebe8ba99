import type { CommonalityAnswer } from "../../../api/contract/commonality.contract.ts";
import { indexText, wholeText } from "../../components/figures.ts";
import { ScrollTable } from "../../components/scroll-table.tsx";
import { indexColumns } from "./index-words.ts";

type Indices = CommonalityAnswer["whole"];

/** Indices by category and vessel, the whole first, each column explained in plain words below. */
export function IndexTable({ answer }: { readonly answer: CommonalityAnswer }) {
  const row = (name: string, kind: string, indices: Indices) => (
    <tr key={`${kind} ${name}`} className={kind}>
      <th scope="row">{name}</th>
      {indexColumns.map((column) => {
        const value = indices[column.key];
        return (
          <td key={column.key} className="number">
            {column.isRatio ? indexText(value) : value === null ? "–" : wholeText(value)}
          </td>
        );
      })}
    </tr>
  );
  return (
    <>
      <ScrollTable caption="How alike, by category and vessel" captionHidden>
        <thead>
          <tr>
            <th scope="col">Gear</th>
            {indexColumns.map((column) => (
              <th scope="col" key={column.key} className="number">
                {column.name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {row("All of it", "row-whole", answer.whole)}
          {answer.categories.map((entry) => row(entry.category, "row-category", entry))}
        </tbody>
        {answer.vessels.length > 0 && (
          <tbody>
            <tr className="row-group">
              <th scope="rowgroup" colSpan={indexColumns.length + 1}>
                By vessel
              </th>
            </tr>
            {answer.vessels.map((entry) => row(entry.vessel.name, "row-vessel", entry))}
          </tbody>
        )}
      </ScrollTable>
      <details>
        <summary>What the columns mean</summary>
        <dl className="meanings">
          {indexColumns.map((column) => (
            <div key={column.key}>
              <dt>{column.name}</dt>
              <dd>{column.meaning}</dd>
            </div>
          ))}
        </dl>
      </details>
    </>
  );
}
