declare module "virtual:schema-list" {
  export const owners: readonly import("./schema-owner.ts").SchemaOwner[];
}
