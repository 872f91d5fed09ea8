/** `order` by a column or by when a row was added, from "name" or "-added". */
export function ordered<C extends string>(
  sort: `${"" | "-"}${C | "added"}`,
): Record<string, "asc" | "desc">[] {
  const way = sort.startsWith("-") ? "desc" : "asc";
  const column = sort.replace("-", "");
  return column === "added" ? [{ id: way }] : [{ [column]: way }, { id: way }];
}
