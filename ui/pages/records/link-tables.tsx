import { useState } from "react";
import { Button } from "react-aria-components";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import type { LinkDocument, RecordAnswer } from "../../../api/contract/records.contract.ts";
import { plural } from "../../components/figures.ts";
import { kindWord } from "../../components/kind-words.ts";
import { ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { tellChange } from "../../data/last-change.ts";
import { editLink, takeLinkAway } from "../../data/records-client.ts";
import { problemOf } from "../../data/use-answer.ts";
import { hitAddress } from "../../shell/hit-address.ts";
import { AddLink } from "./add-link.tsx";
import { linkKinds } from "./link-kinds.ts";
import { linkTitle } from "./link-titles.ts";
import { ValueEditor } from "./value-editor.tsx";
import { propertyWord } from "./value-words.ts";

type Group = RecordAnswer["links"][number];
type Field = Group["fields"][number];

const far = (link: LinkDocument, direction: Group["direction"]) =>
  direction === "out" ? link.to : link.from;

/** Properties any of the relationships has, so that empty columns stay away. */
const usedFields = (group: Group) =>
  group.fields.filter(({ property }) =>
    group.shown.some(({ properties }) => properties[property] !== undefined),
  );

/** A value of a relationship, corrected in place. */
const LinkValue = ({ link, field }: { readonly link: LinkDocument; readonly field: Field }) => (
  <ValueEditor
    field={field}
    value={link.properties[field.property]}
    properties={link.properties}
    onSave={async (text) =>
      tellChange(
        await editLink(link.type, link.from.id, link.to.id, {
          basedOn: link.version,
          set: { [field.property]: text },
        }),
      )
    }
  />
);

const columnsOf = (group: Group): readonly Column<LinkDocument>[] => [
  {
    id: "record",
    name: kindWord(group.shown[0] === undefined ? "" : far(group.shown[0], group.direction).label),
    kind: "name",
    cell: (link) => far(link, group.direction).name,
  },
  ...usedFields(group).map(
    (field): Column<LinkDocument> => ({
      id: field.property,
      name: propertyWord(field.property),
      ...(["integer", "real", "money"].includes(field.kind) ? { kind: "number" as const } : {}),
      cell: (link) => <LinkValue link={link} field={field} />,
      value: (link) => {
        const value = link.properties[field.property];
        return typeof value === "number" || typeof value === "string" ? value : null;
      },
    }),
  ),
];

/** A line whole: the way to its other end, all that may be said of it, and taking it out. */
function LinkDetail({ link, group }: { readonly link: LinkDocument; readonly group: Group }) {
  const [problem, setProblem] = useState<ProblemDocument>();
  const { label, id, name } = far(link, group.direction);
  const address = hitAddress(label, id);
  return (
    <div className="why">
      {address !== undefined && (
        <p>
          <a href={address}>All about {name}</a>
        </p>
      )}
      <dl className="record-values">
        {group.fields.map((field) => (
          <div key={field.property}>
            <dt>{propertyWord(field.property)}</dt>
            <dd>
              <LinkValue link={link} field={field} />
            </dd>
          </div>
        ))}
      </dl>
      <Button
        className="quiet"
        onPress={() => {
          setProblem(undefined);
          takeLinkAway(link.type, link.from.id, link.to.id, link.version).then(
            tellChange,
            (error: unknown) => setProblem(problemOf(error)),
          );
        }}
      >
        Take this line out
      </Button>
      {problem !== undefined && <ProblemNote problem={problem} />}
    </div>
  );
}

/** What a record hangs together with, a table to each kind of relationship, and what may be added to it. */
export function LinkTables({ answer }: { readonly answer: RecordAnswer }) {
  const { record } = answer;
  return (
    <>
      {answer.links
        .filter(({ total }) => total > 0)
        .map((group) => {
          const title = linkTitle(group.type, group.direction);
          return (
            <section key={`${group.type} ${group.direction}`} className="record-links">
              <h3>{title}</h3>
              <DataTable
                caption={`${title}: ${record.name}`}
                className="tall"
                sorts={group.shown.length > 3}
                columns={columnsOf(group)}
                rows={group.shown}
                rowKey={(link) => `${link.from.id} ${link.to.id}`}
                detail={{
                  words: (link) =>
                    `More about ${title.toLowerCase()} ${far(link, group.direction).name}`,
                  show: (link) => <LinkDetail link={link} group={group} />,
                }}
              />
              {group.total > group.shown.length && (
                <p className="said">
                  The first {group.shown.length} of {plural(group.total, "record")} are shown.
                </p>
              )}
            </section>
          );
        })}
      <div className="deed">
        {linkKinds(record.label).map((kind) => (
          <AddLink key={`${kind.type} ${kind.direction}`} record={record} kind={kind} />
        ))}
      </div>
    </>
  );
}
