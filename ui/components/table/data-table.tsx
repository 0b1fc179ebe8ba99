import {
  type CSSProperties,
  type ReactNode,
  useCallback,
  useEffect,
  useMemo,
  useRef,
  useState,
} from "react";
import { useSettled } from "../use-settled.ts";
import { type Column, cellClass, compareValues, openIdOf, plainValue } from "./column.ts";
import { type Detail, TableRow } from "./table-row.tsx";
import { useRowWalk } from "./use-row-walk.ts";
import { longTable, rowHeightNow, useRowWindow } from "./use-row-window.ts";

/** Rows that stand together under a heading of their own. */
export interface RowGroup<Row> {
  readonly key: string;
  readonly heading: ReactNode;
  readonly rows: readonly Row[];
}

interface Order {
  readonly column: string;
  readonly isDown: boolean;
  /** The rows come sorted. */
  readonly isElsewhere: boolean;
}

interface TableProps<Row> {
  /** Names the table and its scrolling box. */
  readonly caption: string;
  readonly captionShown?: boolean;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[] | readonly RowGroup<Row>[];
  readonly rowKey: (row: Row) => string;
  readonly rowClass?: (row: Row) => string;
  /** What a row opens to; its heading cell becomes the handle. Not for long tables. */
  readonly detail?: Detail<Row>;
  /** The key of a row that stands open and in sight from the start. */
  readonly opened?: string;
  readonly className?: string;
  /** Headings sort. */
  readonly sorts?: boolean;
  /** Of rows that are fetched as they come into sight: told which those are. */
  readonly onWindow?: (first: number, end: number) => void;
  /** Takes the sorting over where it can (true); else the rows at hand are sorted here. */
  readonly onSort?: (column: string, isDown: boolean) => boolean;
}

/** Rows that stand with the page; the others follow once it is on the screen. */
const rowsAtOnce = 24;

const isGroups = <Row,>(
  rows: readonly Row[] | readonly RowGroup<Row>[],
): rows is readonly RowGroup<Row>[] => {
  const first = rows[0];
  return typeof first === "object" && first !== null && "heading" in first && "rows" in first;
};

/**
 * Every table of the screen: a named box that scrolls and can be reached by keyboard, headings that may sort, rows
 * that may stand in groups or open. Above 200 rows only those in sight are on the page; arrow keys walk from row to row.
 */
export function DataTable<Row>(props: TableProps<Row>) {
  const { caption, columns, rowKey, className = "", captionShown = false } = props;
  const box = useRef<HTMLElement>(null);
  const [order, setOrder] = useState<Order>();
  const [open, setOpen] = useState<ReadonlySet<string>>(new Set());
  const groups: readonly RowGroup<Row>[] = useMemo(
    () =>
      isGroups(props.rows) ? props.rows : [{ key: "rows", heading: undefined, rows: props.rows }],
    [props.rows],
  );
  const sorted = useMemo(() => {
    const column = columns.find(({ id }) => id === order?.column);
    if (column === undefined || order?.isElsewhere === true) return groups;
    const sign = order?.isDown === true ? -1 : 1;
    return groups.map((group) => {
      const keyed = group.rows.map((row, index) => ({
        row,
        value: plainValue(column, row, index),
      }));
      keyed.sort((a, b) =>
        a.value === null || b.value === null
          ? compareValues(a.value, b.value)
          : sign * compareValues(a.value, b.value),
      );
      return { ...group, rows: keyed.map(({ row }) => row) };
    });
  }, [groups, columns, order]);
  const isSettled = useSettled(props.opened !== undefined);
  const drawn = useMemo(() => {
    if (isSettled) return sorted;
    let left = rowsAtOnce;
    return sorted.map((group) => {
      const rows = group.rows.slice(0, left);
      left -= rows.length;
      return { ...group, rows };
    });
  }, [sorted, isSettled]);
  const [lone] = sorted.length === 1 ? sorted : [];
  const count = lone !== undefined && lone.heading === undefined ? lone.rows.length : 0;
  const isLong = count > longTable && props.detail === undefined;
  const rowHeight = useMemo(rowHeightNow, []);
  const shown = useRowWindow(box, isLong ? count : 0, rowHeight);
  const { onWindow, onSort } = props;
  useEffect(() => {
    if (isLong) onWindow?.(shown.first, shown.end);
  }, [onWindow, isLong, shown.first, shown.end]);
  /** Columns left out on narrow screens must not keep their width there. */
  const sharesOf = (shown: readonly Column<Row>[]): number =>
    shown.reduce((sum, column) => sum + (column.share ?? 1), 0);
  const shares = {
    "--shares": sharesOf(columns),
    "--shares-narrow": sharesOf(columns.filter((column) => column.leftOut !== "when narrow")),
  } as CSSProperties;

  const { opened } = props;
  useEffect(() => {
    if (opened === undefined) return;
    setOpen((before) => new Set([...before, opened]));
    requestAnimationFrame(() =>
      document.getElementById(openIdOf(opened))?.previousElementSibling?.scrollIntoView({
        block: "start",
      }),
    );
  }, [opened]);
  const toggle = useCallback((key: string) => {
    setOpen((before) => {
      const next = new Set(before);
      if (!next.delete(key)) next.add(key);
      return next;
    });
  }, []);
  const walk = useRowWalk(box, count, rowHeight, props.rows);
  const heading = (column: Column<Row>) => {
    const isBy = order?.column === column.id;
    return (
      <th
        scope="col"
        key={column.id}
        className={cellClass(column)}
        style={isLong ? ({ "--share": column.share ?? 1 } as CSSProperties) : undefined}
        {...(isBy ? { "aria-sort": order.isDown ? "descending" : "ascending" } : {})}
      >
        {props.sorts === true ? (
          <button
            type="button"
            className="sorter"
            onClick={() => {
              const isDown = isBy && !order.isDown;
              setOrder({
                column: column.id,
                isDown,
                isElsewhere: onSort?.(column.id, isDown) === true,
              });
            }}
          >
            {column.name}
            <span aria-hidden="true" className="sort-mark">
              {isBy ? (order.isDown ? "▾" : "▴") : "▵"}
            </span>
          </button>
        ) : (
          column.name
        )}
      </th>
    );
  };
  const row = (entry: Row, index: number, at?: number) => {
    const key = rowKey(entry);
    return (
      <TableRow
        key={key}
        row={entry}
        index={index}
        id={key}
        columns={columns}
        className={props.rowClass?.(entry) ?? ""}
        isOpen={open.has(key)}
        onToggle={toggle}
        {...(props.detail === undefined ? {} : { detail: props.detail })}
        {...(at === undefined ? {} : { at })}
      />
    );
  };
  const spacer = (rows: number, key: string) =>
    rows <= 0 ? null : (
      <tr key={key} className="spacer">
        <td colSpan={columns.length} style={{ height: `${rows * rowHeight}px` }} />
      </tr>
    );
  return (
    <section
      ref={box}
      className={`table-box ${isLong ? "long" : ""} ${className}`}
      aria-label={caption}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling box must be reachable by keyboard (WCAG 2.1.1)
      tabIndex={0}
      {...(isLong ? { onKeyDown: walk } : {})}
    >
      <table {...(isLong ? { "aria-rowcount": count + 1, style: shares } : {})}>
        <caption className={captionShown ? "" : "hidden"}>{caption}</caption>
        <thead>
          <tr>{columns.map(heading)}</tr>
        </thead>
        {isLong ? (
          <tbody style={{ "--row-height": `${rowHeight}px` } as CSSProperties}>
            {spacer(shown.first, "above")}
            {(sorted[0]?.rows ?? [])
              .slice(shown.first, shown.end)
              .map((entry, index) => row(entry, shown.first + index, shown.first + index))}
            {spacer(count - shown.end, "below")}
          </tbody>
        ) : (
          drawn.map((group) => (
            <tbody key={group.key}>
              {group.heading !== undefined && (
                <tr className="row-group">
                  <th scope="rowgroup" colSpan={columns.length}>
                    {group.heading}
                  </th>
                </tr>
              )}
              {group.rows.map((entry, index) => row(entry, index))}
            </tbody>
          ))
        )}
      </table>
    </section>
  );
}
