/** The cautions that go with every kit and list, on the screen and on paper. */
export function Cautions({
  title,
  cautions,
}: {
  readonly title: string;
  readonly cautions: readonly string[];
}) {
  return (
    <section className="cautions" aria-label={title}>
      <h2>{title}</h2>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}
