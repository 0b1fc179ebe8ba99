import { ChevronRight } from "lucide-react";
import { Fragment, memo, type ReactNode } from "react";
import { WhyNumber } from "../why.tsx";
import { type Column, cellClass, openIdOf, plainValue } from "./column.ts";

/** What a row opens to. */
export interface Detail<Row> {
  /** Names the handle: "Why 00471-K". */
  readonly words: (row: Row) => string;
  readonly show: (row: Row) => ReactNode;
}

interface RowProps<Row> {
  readonly row: Row;
  readonly index: number;
  readonly id: string;
  readonly columns: readonly Column<Row>[];
  readonly className: string;
  readonly isOpen: boolean;
  readonly onToggle: (id: string) => void;
  readonly detail?: Detail<Row>;
  /** Its place in a long table. */
  readonly at?: number;
}

function PlainRow<Row>(props: RowProps<Row>) {
  const { row, index, id, columns, className, isOpen, onToggle, detail, at } = props;
  const openId = openIdOf(id);
  const head = columns.findIndex((column) => column.kind === "name");
  const headColumn = columns[head];
  const rowName = headColumn === undefined ? "" : String(plainValue(headColumn, row, index) ?? "");
  return (
    <Fragment>
      <tr
        className={className}
        {...(at === undefined ? {} : { "data-row": at, "aria-rowindex": at + 2 })}
      >
        {columns.map((column, place) => {
          const { why } = column;
          const content =
            why === undefined ? (
              column.cell(row, index)
            ) : (
              <WhyNumber name={`${column.name}, ${rowName}`} explain={() => why(row)}>
                {column.cell(row, index)}
              </WhyNumber>
            );
          if (place !== head)
            return (
              <td key={column.id} className={cellClass(column)}>
                {content}
              </td>
            );
          return (
            <th key={column.id} scope="row" className={cellClass(column)}>
              {detail === undefined ? (
                content
              ) : (
                <button
                  type="button"
                  className="opener"
                  aria-expanded={isOpen}
                  {...(isOpen ? { "aria-controls": openId } : {})}
                  aria-label={detail.words(row)}
                  onClick={() => onToggle(id)}
                >
                  <ChevronRight size={16} aria-hidden="true" className="opener-mark" />
                  <span className="opener-text">{content}</span>
                </button>
              )}
            </th>
          );
        })}
      </tr>
      {isOpen && detail !== undefined && (
        <tr className="why-row" id={openId}>
          <td colSpan={columns.length}>{detail.show(row)}</td>
        </tr>
      )}
    </Fragment>
  );
}

/** One row, drawn again only when something of its own changes. */
export const TableRow = memo(PlainRow) as typeof PlainRow;
