/** A sheet of labels as sold everywhere: sizes in millimetres. Common practice, no source; measure your own sheet. */
export interface LabelSheet {
  readonly id: string;
  readonly name: string;
  readonly paper: "A4" | "Letter";
  readonly across: number;
  readonly down: number;
  readonly width: number;
  readonly height: number;
  /** From the paper's edges to the first label. */
  readonly left: number;
  readonly top: number;
  /** From the left edge of one label to that of the next. */
  readonly pitch: number;
}

const inch = 25.4;

export const labelSheets: readonly LabelSheet[] = [
  {
    id: "a4-21",
    name: "A4, 21 of 63.5 × 38.1 mm",
    paper: "A4",
    across: 3,
    down: 7,
    width: 63.5,
    height: 38.1,
    left: 7.2,
    top: 15.1,
    pitch: 66,
  },
  {
    id: "a4-24",
    name: "A4, 24 of 70 × 37 mm",
    paper: "A4",
    across: 3,
    down: 8,
    width: 70,
    height: 37,
    left: 0,
    top: 0.5,
    pitch: 70,
  },
  {
    id: "a4-65",
    name: "A4, 65 of 38.1 × 21.2 mm",
    paper: "A4",
    across: 5,
    down: 13,
    width: 38.1,
    height: 21.2,
    left: 4.7,
    top: 10.7,
    pitch: 40.6,
  },
  {
    id: "letter-30",
    name: "Letter, 30 of 2⅝ × 1 in",
    paper: "Letter",
    across: 3,
    down: 10,
    width: 2.625 * inch,
    height: inch,
    left: 0.1875 * inch,
    top: 0.5 * inch,
    pitch: 2.75 * inch,
  },
  {
    id: "letter-10",
    name: "Letter, 10 of 4 × 2 in",
    paper: "Letter",
    across: 2,
    down: 5,
    width: 4 * inch,
    height: 2 * inch,
    left: 0.156 * inch,
    top: 0.5 * inch,
    pitch: 4.1875 * inch,
  },
];

/** Labels in sheets, the first `skip` places of the first sheet left empty: they were used before. */
export function dealLabels<T>(
  labels: readonly T[],
  sheet: Pick<LabelSheet, "across" | "down">,
  skip: number,
): readonly (readonly (T | undefined)[])[] {
  const each = sheet.across * sheet.down;
  const places: (T | undefined)[] = [
    ...Array.from({ length: Math.min(skip, each - 1) }, () => undefined),
    ...labels,
  ];
  const sheets: (readonly (T | undefined)[])[] = [];
  for (let at = 0; at < places.length; at += each) sheets.push(places.slice(at, at + each));
  return sheets;
}
