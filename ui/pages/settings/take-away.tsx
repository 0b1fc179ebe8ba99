const lists = [
  ["flat", "Everything in one list"],
  ["gear", "Gear"],
  ["functions", "Functions"],
  ["parts", "Parts lists"],
  ["services", "Services"],
  ["suppliers", "Suppliers"],
  ["offers", "Offers"],
  ["lockers", "Lockers"],
  ["stock", "Stock"],
  ["crossings", "Crossings"],
] as const;

/** Everything back as spreadsheets, in the headings an import takes in again. */
export const TakeAway = () => (
  <section aria-labelledby="away-title">
    <h2 id="away-title">Take everything with you</h2>
    <p className="said">
      Each list as a spreadsheet (CSV), which can be taken in again here or read anywhere else.
    </p>
    <ul className="take-away">
      {lists.map(([list, words]) => (
        <li key={list}>
          <a className="row-link" href={`./api/export/${list}`} download>
            {words}
          </a>
        </li>
      ))}
    </ul>
  </section>
);
