import type { LinkDocument, RecordAnswer } from "../../../api/contract/records.contract.ts";
import { plural } from "../../components/figures.ts";
import { kindWord } from "../../components/kind-words.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { tellChange } from "../../data/last-change.ts";
import { editLink } from "../../data/records-client.ts";
import { hitAddress } from "../../shell/hit-address.ts";
import { linkTitle } from "./link-titles.ts";
import { ValueEditor } from "./value-editor.tsx";
import { propertyWord, valueWords } from "./value-words.ts";

type Group = RecordAnswer["links"][number];

const far = (link: LinkDocument, direction: Group["direction"]) =>
  direction === "out" ? link.to : link.from;

/** Properties any of the relationships has, so that empty columns stay away. */
const usedFields = (group: Group) =>
  group.fields.filter(({ property }) =>
    group.shown.some(({ properties }) => properties[property] !== undefined),
  );

function columnsOf(group: Group): readonly Column<LinkDocument>[] {
  const isEditable = group.type !== "ORDERED_FROM";
  return [
    {
      id: "record",
      name: kindWord(
        group.shown[0] === undefined ? "" : far(group.shown[0], group.direction).label,
      ),
      kind: "name",
      cell: (link) => {
        const { label, id, name } = far(link, group.direction);
        const address = hitAddress(label, id);
        return address === undefined ? (
          name
        ) : (
          <a className="row-link" href={address}>
            {name}
          </a>
        );
      },
      value: (link) => far(link, group.direction).name,
    },
    ...usedFields(group).map(
      (field): Column<LinkDocument> => ({
        id: field.property,
        name: propertyWord(field.property),
        ...(["integer", "real", "money"].includes(field.kind) ? { kind: "number" as const } : {}),
        cell: (link) =>
          isEditable ? (
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
          ) : (
            valueWords(field, link.properties[field.property], link.properties)
          ),
        value: (link) => {
          const value = link.properties[field.property];
          return typeof value === "number" || typeof value === "string" ? value : null;
        },
      }),
    ),
  ];
}

/** What a record hangs together with, a table to each kind of relationship. */
export function LinkTables({ answer }: { readonly answer: RecordAnswer }) {
  return answer.links
    .filter(({ total }) => total > 0)
    .map((group) => {
      const title = linkTitle(group.type, group.direction);
      return (
        <section key={`${group.type} ${group.direction}`} className="record-links">
          <h3>{title}</h3>
          <DataTable
            caption={`${title}: ${answer.record.name}`}
            className="tall"
            sorts={group.shown.length > 3}
            columns={columnsOf(group)}
            rows={group.shown}
            rowKey={(link) => `${link.from.id} ${link.to.id} ${JSON.stringify(link.properties)}`}
          />
          {group.total > group.shown.length && (
            <p className="said">
              The first {group.shown.length} of {plural(group.total, "record")} are shown.
            </p>
          )}
        </section>
      );
    });
}
