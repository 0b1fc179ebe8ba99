const colours = [
  ["paper", "ground"],
  ["sea", "ground of opened rows"],
  ["band", "ground of headings in tables"],
  ["ink", "words"],
  ["soft", "words beside the matter"],
  ["rule", "lines within"],
  ["frame", "lines around"],
  ["act", "what can be pressed; the main mark of a picture"],
  ["focus", "where the keyboard is"],
  ["pick", "ground of what is picked"],
  ["good", "reached"],
  ["bad", "refused, not reached"],
  ["t-safety", "safety tier"],
  ["t-passage", "passage tier"],
  ["t-comfort", "comfort tier"],
  ["cell", "shared"],
  ["cell-lone", "taken by one only"],
  ["cell-mate", "shares with what is picked"],
  ["k1", "first kind of gear"],
  ["k2", "second kind"],
  ["k3", "third kind"],
  ["k4", "fourth kind"],
  ["k5", "fifth kind"],
  ["k6", "sixth kind"],
] as const;

/** Each colour by its name and use, in the light that is on. */
export const ColourSwatches = () => (
  <ul className="swatches">
    {colours.map(([name, use]) => (
      <li key={name}>
        <span className="swatch" style={{ background: `var(--${name})` }} aria-hidden="true" />
        <span>
          <strong>{name}</strong>
          <br />
          <span className="said">{use}</span>
        </span>
      </li>
    ))}
  </ul>
);

const sizes = [
  ["t-answer", "The answer, in a sentence", "24"],
  ["t-lead", "Heading of a part", "20"],
  ["t-body", "Everything else: 0123456789 1 in 40", "16"],
  ["t-small", "Labels, headings of columns, notices", "14"],
  ["t-mark", "Words inside pictures", "13"],
] as const;

/** The sizes of type, each in its own size. */
export const TypeScale = () => (
  <ul className="type-scale">
    {sizes.map(([name, words, pixels]) => (
      <li key={name}>
        <span style={{ fontSize: `var(--${name})` }}>{words}</span>
        <span className="said">
          {name}, {pixels} px
        </span>
      </li>
    ))}
  </ul>
);

const steps = [1, 2, 3, 4, 6, 8, 12] as const;

/** The steps of space. */
export const SpaceScale = () => (
  <ul className="space-scale">
    {steps.map((step) => (
      <li key={step}>
        <span className="space-bar" style={{ width: `var(--s${step})` }} aria-hidden="true" />
        <span>
          s{step}, {step * 4} px
        </span>
      </li>
    ))}
  </ul>
);
